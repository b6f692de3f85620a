//! The caption of a story's shot.

use super::scene::{Fill, Pen, Scene, Stroke, Text, wrapped};
use super::{Ink, Picture, Sheet};

/// Letters and lines of what is said, and of the readings below it, px.
const SAID: [f64; 2] = [17.0, 22.0];
const TOLD: [f64; 2] = [13.5, 18.0];

/// At the strip's sides; and below its words, where the page's buttons that turn the shots stand, px.
const ASIDE: f64 = 24.0;
const BUTTONS: f64 = 64.0;

/// What a story says, in large letters on a strip of paper along the drawing's lower edge, and the readings it pins.
pub fn draw(picture: &Picture, sheet: &Sheet, scene: &mut Scene) {
    let Some((said, readings)) = picture.caption.filter(|(said, _)| !said.is_empty()) else { return };
    let window = sheet.windows().last().map_or(([0.0, 0.0], sheet.size), |window| (window.min, window.max));
    let ([left, _], [right, bottom]) = window;
    let lines = |text: &str, [size, line]: [f64; 2]| {
        wrapped(text, size, right - left - 2.0 * ASIDE).into_iter().map(move |text| (text, size, line))
    };
    // Between two readings a line may break, within one it does not.
    let readings: Vec<String> = readings.iter().map(|reading| reading.replace(' ', "\u{a0}")).collect();
    let all: Vec<_> = lines(said, SAID).chain(lines(&readings.join("; "), TOLD)).collect();
    let top = bottom - all.iter().map(|(.., line)| line).sum::<f64>() - BUTTONS;
    let mut pen = Pen::default();
    let strip = [[left, top], [right, top], [right, bottom], [left, bottom]];
    pen.shape(&strip, Some(Fill::solid(Ink::Paper)), Some(Stroke::line(Ink::Ink, 1.0)));
    let mut y = top + 2.0;
    for (text, size, line) in all {
        y += line;
        pen.text(Text { size, halo: false, ..Text::at([left + ASIDE, y], &text) });
    }
    scene.items.append(&mut pen.items);
}
