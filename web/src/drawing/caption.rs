//! The caption of a story's shot.

use super::scene::{Fill, Pen, Scene, Stroke, Text, wrapped};
use super::{Ink, Picture, Sheet};

/// What a story says, in large letters on a strip of paper along the drawing's lower edge.
pub fn draw(picture: &Picture, sheet: &Sheet, scene: &mut Scene) {
    if picture.caption.is_empty() {
        return;
    }
    let window = sheet.windows().last().map_or(([0.0, 0.0], sheet.size), |window| (window.min, window.max));
    let ([left, _], [right, bottom]) = window;
    let lines = wrapped(picture.caption, 17.0, right - left - 48.0);
    // The page’s buttons that turn the shots stand in the lower part of the strip.
    let top = bottom - 22.0 * lines.len() as f64 - 64.0;
    let mut pen = Pen::default();
    let strip = [[left, top], [right, top], [right, bottom], [left, bottom]];
    pen.shape(&strip, Some(Fill::solid(Ink::Paper)), Some(Stroke::line(Ink::Ink, 1.0)));
    for (row, line) in lines.iter().enumerate() {
        let at = [left + 24.0, top + 24.0 + 22.0 * row as f64];
        pen.text(Text { size: 17.0, halo: false, ..Text::at(at, line) });
    }
    scene.items.append(&mut pen.items);
}
