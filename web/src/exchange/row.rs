//! The axles of the row on one paper: each with its name, its drawing and the same readings, all to one scale; for a picture and for print.

use super::{as_built, code};
use crate::app::{App, InRow};
use crate::document::place::Place;
use crate::drawing::{
    Anchor, Fill, Ink, Item, P, Scene, Sheet, Step, Stroke, Text, Turn, View, draw, scale_bar, wrapped,
};
use crate::text::caution::CAUTION;

/// How all of them are seen.
#[derive(Clone, Copy)]
pub struct Seen {
    /// The view.
    pub view: View,
    /// From where the pictorial view is seen.
    pub turn: Turn,
}

/// Size of a picture, px: of two axles, and what each further one adds to its width.
pub const PICTURE: [P; 2] = [[860.0, 900.0], [330.0, 0.0]];

/// Margin; height of the names' band and of the strip below, with its code; px.
const MARGIN: f64 = 14.0;
const NAMES: f64 = 44.0;
const STRIP: f64 = 120.0;

/// Room for a reading's value, px.
const VALUE: f64 = 84.0;

/// Text sizes, and lines to each px of a letter.
const NAME: f64 = 15.0;
const READING: f64 = 12.5;
const SAYS: f64 = 11.0;
const LINE: f64 = 1.3;

/// At most so many lines of a note.
const NOTE: usize = 5;

/// The row on paper of a size, with the link as a code.
pub fn row(app: &App, seen: Seen, size: P, link: &str) -> Scene {
    let row = app.row();
    let across = size[0] / row.len() as f64;
    let below: Vec<Below> = row.iter().map(|axle| Below::of(axle, across)).collect();
    let words = below.iter().map(Below::height).fold(0.0, f64::max);
    let high = size[1] - NAMES - words - STRIP;
    let pictures: Vec<_> = row.iter().filter_map(|axle| axle.picture).collect();
    let sheet = Sheet::shared([across, high], seen.view, seen.turn, &pictures);
    let mut scene = Scene::new(size);
    let corners = [[0.0, 0.0], [size[0], 0.0], size, [0.0, size[1]]];
    scene.items.push(Item::Path { steps: through(&corners), fill: Some(Fill::solid(Ink::Paper)), stroke: None });
    for (at, (axle, below)) in row.iter().zip(below).enumerate() {
        let left = at as f64 * across;
        if at > 0 {
            scene.items.push(line([left, 0.0], [left, size[1] - STRIP], Ink::Rule));
        }
        let name = wrapped(&axle.layout.name, NAME, across - 2.0 * MARGIN);
        scene.items.extend(lines(name.into_iter().take(2), [left + MARGIN, 4.0], NAME, true));
        let drawn = axle.picture.map_or(Vec::new(), |picture| draw(&picture, &sheet).items);
        scene.items.extend(drawn.into_iter().map(|item| item.moved([left, NAMES])));
        scene.items.extend(below.items([left, NAMES + high], across));
    }
    scene.items.extend(strip(app, &sheet, size, link));
    scene
}

/// What stands below one drawing.
struct Below {
    /// Lines of each reading's name, and its value.
    readings: Vec<(Vec<String>, String)>,
    /// Lines of what there is to say of it.
    says: Vec<String>,
}

impl Below {
    fn of(axle: &InRow, across: f64) -> Below {
        let width = across - 2.0 * MARGIN;
        let reading = |(reading, value): &(&kernel::Reading, String)| {
            (wrapped(&reading.full_name(), READING, width - VALUE), value.clone())
        };
        let note = wrapped(&axle.layout.note, SAYS, width).into_iter().take(NOTE);
        let changes = as_built::changes(axle.layout);
        let says = [axle.says.as_str(), &changes].into_iter().flat_map(|text| wrapped(text, SAYS, width)).chain(note);
        Below {
            readings: axle.readings.iter().map(reading).collect(),
            says: says.filter(|line| !line.is_empty()).collect(),
        }
    }

    fn height(&self) -> f64 {
        let readings: usize = self.readings.iter().map(|(lines, _)| lines.len()).sum();
        MARGIN + LINE * (READING * readings as f64 + SAYS * self.says.len() as f64) + MARGIN
    }

    fn items(self, [left, top]: P, across: f64) -> Vec<Item> {
        let (from, to) = (left + MARGIN, left + across - MARGIN);
        let mut items = vec![line([from, top], [to, top], Ink::Rule)];
        let mut y = top;
        for (name, value) in self.readings {
            let down = LINE * READING * name.len() as f64;
            items.extend(lines(name.into_iter(), [from, y], READING, false));
            let end = Text {
                size: READING,
                bold: true,
                halo: false,
                anchor: Anchor::End,
                ..Text::at([to, y + LINE * READING], &value)
            };
            items.push(Item::Text(end));
            y += down;
        }
        items.extend(lines(self.says.into_iter(), [from, y + MARGIN / 2.0], SAYS, false));
        items
    }
}

/// What holds for all of them: the scale, where they stand, signs, caution, and the link as a code, or in letters where it is too long for one.
fn strip(app: &App, sheet: &Sheet, [wide, high]: P, link: &str) -> Vec<Item> {
    let top = high - STRIP;
    let side = STRIP - MARGIN / 2.0;
    let code = code::items(link, [wide - side - MARGIN / 2.0, top + MARGIN / 4.0], side);
    let place = Place::of(&app.document).words(app.document.units);
    let said = format!(
        "All to one scale, {place}, each counted from where its own car stands. {}. Lengths in {}; signs to ISO 8855.",
        as_built::wheel(app),
        app.document.units.length_name(),
    );
    let in_letters = if code.is_none() { link } else { "" };
    let (from, width) = (MARGIN + 150.0, wide - side - 150.0 - 3.0 * MARGIN);
    let text = [said.as_str(), CAUTION].into_iter().flat_map(|text| wrapped(text, SAYS, width));
    let mut items = vec![line([0.0, top], [wide, top], Ink::Ink)];
    items.extend(scale_bar(sheet).items.into_iter().map(|item| item.moved([MARGIN, top + MARGIN])));
    let text: Vec<String> = text.collect();
    let after = top + MARGIN + LINE * SAYS * text.len() as f64;
    items.extend(lines(text.into_iter(), [from, top + MARGIN / 2.0], SAYS, false));
    items.extend(lines(wrapped(in_letters, 8.0, width).into_iter(), [from, after], 8.0, false));
    items.extend(code.into_iter().flatten());
    items
}

/// Lines of text, the first just below a place.
fn lines(text: impl Iterator<Item = String>, [left, top]: P, size: f64, bold: bool) -> Vec<Item> {
    let line = |(at, text): (usize, String)| {
        let y = top + LINE * size * (at + 1) as f64;
        Item::Text(Text { size, bold, halo: false, ..Text::at([left, y], &text) })
    };
    text.enumerate().map(line).collect()
}

fn line(from: P, to: P, ink: Ink) -> Item {
    Item::Path { steps: through(&[from, to]), fill: None, stroke: Some(Stroke::line(ink, 1.0)) }
}

fn through(points: &[P]) -> Vec<Step> {
    points.iter().enumerate().map(|(i, p)| if i == 0 { Step::Move(*p) } else { Step::Line(*p) }).collect()
}
