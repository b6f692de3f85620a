//! One picture with all it needs to be understood.

use super::before::Before;
use super::post::readings;
use super::{as_built, code};
use crate::app::App;
use crate::document::Over;
use crate::drawing::{Anchor, Arrangement, Fill, Ink, Item, P, Scene, Sheet, Step, Stroke, Text, draw, wrapped};
use crate::plot::{self, Plot};
use crate::text::caution::CAUTION;
use kernel::Reading;

/// Size of the drawing, its free quarter for the words, and the strip below it for curves and code, px.
const DRAWING: [f64; 2] = [983.0, 810.0];
const WORDS: [f64; 2] = [416.0, 348.0];
const STRIP: f64 = 176.0;

/// Margin, and height of a line of words, px.
const MARGIN: f64 = 16.0;
const LINE: f64 = 16.0;

/// As many curves as find room in the strip.
const MOST_CURVES: usize = 3;

/// Width of the pictorial view beside the drawing, px.
const BESIDE: f64 = 617.0;

/// The drawing with its name, pinned readings and their curves, legend, sign rule, caution and link: as a code, or in letters where it is too long for
/// one; and beside it, as it is seen, the pictorial view.
pub fn picture(app: &App, link: &str, beside: Option<Arrangement>) -> Scene {
    let picture = app.picture();
    let sheet = Sheet::fit(DRAWING, Arrangement::Cross { drawer: WORDS }, &picture);
    let mut scene = draw(&picture, &sheet);
    if let Some(seen) = beside {
        let view = draw(&picture, &Sheet::fit([BESIDE, DRAWING[1]], seen, &picture));
        scene.items.extend(view.items.into_iter().map(|item| item.moved([DRAWING[0], 0.0])));
        scene.size[0] += BESIDE;
    }
    let [left, top] = [MARGIN, DRAWING[1] + MARGIN / 2.0];
    let side = STRIP - MARGIN;
    let code = code::items(link, [scene.size[0] - side - MARGIN / 2.0, top], side);
    let in_letters = if code.is_none() { link } else { "" };
    scene.items.extend(words(app, in_letters, [left, DRAWING[1] - WORDS[1] + 20.0]));
    scene.items.extend(curves(app, [left, top], DRAWING[0] - side - 2.0 * MARGIN));
    scene.items.extend(code.into_iter().flatten());
    let edge = [[0.0, DRAWING[1] - WORDS[1]], [WORDS[0], DRAWING[1] - WORDS[1]], [WORDS[0], DRAWING[1]]];
    let below = [[0.0, DRAWING[1]], [scene.size[0], DRAWING[1]]];
    let line =
        |points: &[P]| Item::Path { steps: through(points), fill: None, stroke: Some(Stroke::line(Ink::Ink, 1.0)) };
    scene.items.extend([line(&edge), line(&below)]);
    scene.items.extend(beside.map(|_| line(&[[DRAWING[0], 0.0], DRAWING])));
    scene.size[1] += STRIP;
    let [width, height] = scene.size;
    let paper = through(&[[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]]);
    scene.items.insert(0, Item::Path { steps: paper, fill: Some(Fill::solid(Ink::Paper)), stroke: None });
    scene
}

fn through(points: &[P]) -> Vec<Step> {
    points.iter().enumerate().map(|(i, p)| if i == 0 { Step::Move(*p) } else { Step::Line(*p) }).collect()
}

/// Name, readings, what the lines mean, signs, caution, and a link in small letters; what does not fit any more is cut, and says so.
fn words(app: &App, link: &str, [left, mut y]: P) -> Vec<Item> {
    let width = WORDS[0] - 2.0 * MARGIN;
    let legend = "Dash-dot line on a band: steering axis. Dashed: hidden by the tyre. Thin grey: at rest. Circles: ball joints; triangles: on the body.";
    let laid_over = app.document.compared.as_ref().map(|other| format!(" Long dash with two dots: {}.", other.name));
    let legend = legend.to_string() + &laid_over.unwrap_or_default();
    let rule = format!(
        "Lengths in {}. {}; x forward, y left, z up, signs to ISO 8855. {}",
        app.document.units.length_name(),
        as_built::wheel(app),
        as_built::changes(&app.document.layout)
    );
    let gives =
        "In narrow lines: as it would be if nothing gave way; over it, enlarged: as it gives way under the load.";
    let gives = if app.study.deflected.is_some() { gives } else { "" };
    let before = Before::of(app);
    let mut lines = vec![(app.document.layout.name.clone(), 15.0, true)];
    let small = |text: &str, size: f64| wrapped(text, size, width).into_iter().map(move |text| (text, size, false));
    lines.extend(before.iter().flat_map(|before| small(&format!("{} → now", before.name), 11.0)));
    lines.extend(readings(app, before.as_ref()).iter().flat_map(|text| small(text, 12.5)));
    let meaning = app.margins_mean().unwrap_or_default();
    let said = [(&*meaning, 11.0), (&*legend, 11.0), (gives, 11.0), (&rule, 11.0), (CAUTION, 11.0), (link, 8.0)];
    for (text, size) in said.into_iter().filter(|(text, _)| !text.is_empty()) {
        lines.extend(small(text, size));
    }
    let mut items = Vec::new();
    for (text, size, bold) in lines {
        if y > DRAWING[1] - MARGIN {
            let more = "… (there is more: copy it from the page)";
            items.push(Item::Text(Text { size: 8.0, halo: false, ..Text::at([left, y], more) }));
            break;
        }
        items.push(Item::Text(Text { size, bold, halo: false, ..Text::at([left, y], &text) }));
        y += LINE * size / 12.5;
    }
    items
}

/// The curves of the readings pinned first, side by side with their names; nothing of what a lesson hides.
fn curves(app: &App, [left, top]: P, width: f64) -> Vec<Item> {
    const NAME: f64 = 12.0;
    let told =
        app.document.pinned.iter().filter(|column| !app.hides(column)).filter_map(|column| Reading::named(column));
    let drawn =
        |reading| Some(Plot::new(&app.study, &app.document, reading)?.within(app.band(reading), app.document.over));
    let plots = told.filter_map(|reading| Some((reading, drawn(reading)?)));
    let plots: Vec<_> = plots.take(MOST_CURVES).collect();
    let each = width / MOST_CURVES as f64;
    let size = [each, STRIP - MARGIN - NAME];
    let drawn = |(at, (reading, plot)): (usize, &(&'static Reading, Plot))| {
        let x = left + at as f64 * each;
        let name = curve_name(app, reading);
        let title =
            Text { size: 11.0, halo: false, anchor: Anchor::Start, ..Text::at([x + 4.0, top + NAME - 2.0], &name) };
        let mut items = plot::items(plot, [x, top + NAME], size);
        items.push(Item::Text(title));
        items
    };
    plots.iter().enumerate().flat_map(drawn).collect()
}

/// What a reading's curve is called: its name, its unit, and what it runs over.
pub(super) fn curve_name(app: &App, reading: &Reading) -> String {
    let over = match app.document.over {
        Over::Steering => "over rack",
        Over::Roll if app.document.whole => "over roll",
        Over::Travel | Over::TravelUpright | Over::Roll => "over travel",
    };
    format!("{} {} {over}", reading.full_name(), app.document.units.behind(reading)).replace("  ", " ")
}
