//! A slide: one drawing, the pinned readings beside it, and what is said on a strip below; nothing lies over anything. For shows, films and projectors.

use super::scene::{Anchor, Fill, Item, P, Pen, Scene, Stroke, Text, wrapped};
use super::{Ink, Picture, Sheet};
use crate::document::story::Stress;

/// What a slide has beside its drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Slide {
    /// What is said; empty for none.
    pub said: String,
    /// The axle's name.
    pub name: String,
    /// Where it is and what loads it, in words.
    pub place: String,
    /// Pinned readings.
    pub readings: Vec<Line>,
    /// What is emphasised.
    pub stress: Option<Stress>,
    /// How much paper covers the drawing, 0 to 1.
    pub paper: f64,
    /// How many times larger than to fit it is drawn; 0 is as 1.
    pub zoom: f64,
}

/// A pinned reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Its column.
    pub column: &'static str,
    /// What it is called.
    pub name: String,
    /// Its value with its unit.
    pub value: String,
}

/// How many times as large as on the page its letters are: this many px across, or down, are as many as there are letters for.
pub fn letters([width, height]: P) -> f64 {
    let fits = if width > height { f64::min(width / 680.0, height / 520.0) } else { width / 480.0 };
    fits.clamp(1.0, 3.0)
}

/// Letters and lines, px: of what is said, of a reading's name, of its value.
const SAID: [f64; 2] = [19.0, 25.0];
const NAME: [f64; 2] = [14.0, 17.0];
const VALUE: [f64; 2] = [25.0, 31.0];

/// Free paper round words, px.
const ASIDE: f64 = 18.0;
const AIR: f64 = 9.0;

/// The part of a level slide that the readings take, and between which widths, px.
const PANEL: f64 = 0.3;
const PANELS: P = [190.0, 340.0];

/// Where everything stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Places {
    /// The drawing's far corner; it begins in the upper left one.
    pub drawing: P,
    /// The readings, least and greatest; on an upright slide below the drawing.
    pub panel: [P; 2],
    /// What is said, least and greatest.
    pub strip: [P; 2],
}

impl Slide {
    /// Finds the places on a sheet of a size.
    pub fn places(&self, size: P) -> Places {
        let [width, height] = size;
        let said = self.said_lines(width).len() as f64;
        let strip = if said == 0.0 { 0.0 } else { said * SAID[1] + 1.5 * AIR };
        let low = (height - strip).max(0.0);
        let panel = if width > height {
            let wide = (PANEL * width).clamp(PANELS[0], PANELS[1]).min(width);
            [[width - wide, 0.0], [width, low]]
        } else {
            let high = self.rows(width).iter().map(|row| row.height).sum::<f64>() + AIR;
            [[0.0, low - high.min(low / 2.0)], [width, low]]
        };
        let drawing = if width > height { [panel[0][0], low] } else { [width, panel[0][1]] };
        Places { drawing, panel, strip: [[0.0, low], size] }
    }

    fn said_lines(&self, width: f64) -> Vec<String> {
        if self.said.is_empty() { Vec::new() } else { wrapped(&self.said, SAID[0], width - 2.0 * ASIDE) }
    }

    /// What stands in a panel so wide.
    fn rows(&self, width: f64) -> Vec<Row> {
        let inside = width - 2.0 * ASIDE;
        let plain = |text: &str, size: f64, bold: bool| {
            let lines = wrapped(text, size, inside);
            Row { height: lines.len() as f64 * size * 1.25, name: lines, value: String::new(), size, bold, column: "" }
        };
        let head = [plain(&self.name, 15.0, true), plain(&self.place, 12.5, false)];
        let reading = |line: &Line| {
            let name = wrapped(&line.name, NAME[0], inside);
            let height = AIR + name.len() as f64 * NAME[1] + VALUE[1];
            Row { name, value: line.value.clone(), height, size: NAME[0], bold: false, column: line.column }
        };
        head.into_iter().chain(self.readings.iter().map(reading)).collect()
    }
}

/// A row of the panel.
struct Row {
    name: Vec<String>,
    value: String,
    height: f64,
    size: f64,
    bold: bool,
    /// Of a reading.
    column: &'static str,
}

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
            let text = Text { size: row.size * shrunk, bold: row.bold || stressed, halo: false, ink, ..Text::at([x, base], text) };
            pen.text(text);
        }
        if !row.value.is_empty() {
            let at = [x, low - 0.25 * VALUE[0] * shrunk];
            let ink = if stressed { Ink::Selected } else { Ink::Ink };
            pen.text(Text { size: VALUE[0] * shrunk, bold: true, halo: false, ink, anchor: Anchor::Start, ..Text::at(at, &row.value) });
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
