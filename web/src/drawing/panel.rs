//! What a slide has beside its drawing: the panel of readings, what is said, and the paper that covers what goes.

use super::scene::{Fill, Item, P, Pen, Scene, Stroke, Text};
use super::slide::{AIR, ASIDE, SAID, Slide, VALUE};
use super::{Ink, Picture, Sheet};
use crate::document::story::Stress;

/// Draws panel and strip.
pub fn draw(picture: &Picture, sheet: &Sheet, scene: &mut Scene) {
    let (Some(slide), Some(places)) = (picture.slide, sheet.places()) else { return };
    let mut pen = Pen::default();
    panel(slide, places.panel, &mut pen);
    let [[left, top], [right, _]] = places.strip;
    if !slide.said.is_empty() {
        pen.line(&[[left, top], [right, top]], Stroke::line(Ink::Ink, 1.0));
    }
    for (at, text) in slide.said_lines(right - left).iter().enumerate() {
        let y = top + 0.5 * AIR + SAID[1] * (at as f64 + 0.8);
        pen.text(Text { size: SAID[0], halo: false, ..Text::at([left + ASIDE, y], text) });
    }
    scene.items.append(&mut pen.items);
}

/// The readings; where there are more than there is room for, all in smaller letters.
fn panel(slide: &Slide, [[left, top], [right, bottom]]: [P; 2], pen: &mut Pen) {
    let edge = if top > 0.0 { [[left, top], [right, top]] } else { [[left, top], [left, bottom]] };
    pen.line(&edge, Stroke::line(Ink::Ink, 1.0));
    let room = bottom - top - AIR;
    let needs = |shrunk: f64| slide.rows((right - left) / shrunk).iter().map(|row| row.height).sum::<f64>() * shrunk;
    let shrunk = [1.0, 0.85, 0.7, 0.55].into_iter().find(|shrunk| needs(*shrunk) <= room).unwrap_or(0.45);
    let mut y = top + 0.5 * AIR;
    for row in slide.rows((right - left) / shrunk) {
        let stressed = !row.column.is_empty() && slide.stress == Some(Stress::Reading(row.column));
        let low = y + row.height * shrunk;
        if low > bottom {
            break;
        }
        if stressed {
            let mark = [[left, y], [left + 6.0, y], [left + 6.0, low], [left, low]];
            pen.shape(&mark, Some(Fill::solid(Ink::Selected)), None);
        }
        let x = left + ASIDE;
        let ink = if row.column.is_empty() && !row.bold { Ink::Ink2 } else { Ink::Ink };
        let air = if row.column.is_empty() { 0.0 } else { AIR };
        for (at, text) in row.name.iter().enumerate() {
            let line = row.size * 1.25 * (at as f64 + 0.85);
            let base = y + (air + line) * shrunk;
            let text = Text {
                size: row.size * shrunk,
                bold: row.bold || stressed,
                halo: false,
                ink,
                ..Text::at([x, base], text)
            };
            pen.text(text);
        }
        if !row.value.is_empty() {
            let at = [x, low - 0.25 * VALUE[0] * shrunk];
            let ink = if stressed { Ink::Selected } else { Ink::Ink };
            pen.text(Text { size: VALUE[0] * shrunk, bold: true, halo: false, ink, ..Text::at(at, &row.value) });
        }
        y = low;
    }
}

/// Paper over the drawing, as much as the slide says.
pub fn cover(picture: &Picture, [min, max]: [P; 2], items: &mut Vec<Item>) {
    let Some(slide) = picture.slide.filter(|slide| slide.paper > 0.0) else { return };
    let mut pen = Pen::default();
    let corners = [min, [max[0], min[1]], max, [min[0], max[1]]];
    pen.shape(&corners, Some(Fill { ink: Ink::Paper, opacity: slide.paper }), None);
    items.append(&mut pen.items);
}
