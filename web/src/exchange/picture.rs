//! One picture with all it needs to be understood.

use super::as_built;
use super::post::readings;
use crate::app::App;
use crate::drawing::{Arrangement, Fill, Ink, Item, Scene, Sheet, Step, Stroke, Text, draw, wrapped};
use crate::text::caution::CAUTION;

/// Size of the picture, and its free quarter for the words, px.
const SIZE: [f64; 2] = [983.0, 810.0];
const WORDS: [f64; 2] = [416.0, 348.0];

/// Height of a line of words, px.
const LINE: f64 = 16.0;

/// The drawing with its name, pinned readings, legend, sign rule, caution and link.
pub fn picture(app: &App, link: &str) -> Scene {
    let picture = app.picture();
    let sheet = Sheet::fit(SIZE, Arrangement::Cross { drawer: WORDS }, &picture);
    let mut scene = draw(&picture, &sheet);
    let width = WORDS[0] - 32.0;
    let legend = "Dash-dot line on a band: steering axis. Dashed: hidden by the tyre. Thin grey: at rest. Circles: ball joints; triangles: on the body.";
    let rule = format!(
        "Lengths in {}. {}; x forward, y left, z up, signs to ISO 8855. {}",
        app.document.units.length_name(),
        as_built::wheel(app),
        as_built::changes(&app.document.layout)
    );
    let mut lines = vec![(app.document.layout.name.clone(), 15.0, true)];
    lines.extend(readings(app).into_iter().map(|text| (text, 12.5, false)));
    for text in [legend, &rule, CAUTION] {
        lines.extend(wrapped(text, 11.0, width).into_iter().map(|text| (text, 11.0, false)));
    }
    // A long link in small letters; what does not fit any more is cut, and says so.
    lines.extend(wrapped(link, 8.0, width).into_iter().map(|text| (text, 8.0, false)));
    let (left, mut y) = (16.0, SIZE[1] - WORDS[1] + 20.0);
    for (text, size, bold) in lines {
        if y > SIZE[1] - 16.0 {
            let more = "… (the link is longer: copy it from the page)";
            scene.items.push(Item::Text(Text { size: 8.0, halo: false, ..Text::at([left, y], more) }));
            break;
        }
        scene.items.push(Item::Text(Text { size, bold, halo: false, ..Text::at([left, y], &text) }));
        y += LINE * size / 12.5;
    }
    let edge = [[0.0, SIZE[1] - WORDS[1]], [WORDS[0], SIZE[1] - WORDS[1]], [WORDS[0], SIZE[1]]];
    let steps = edge.iter().enumerate().map(|(i, p)| if i == 0 { Step::Move(*p) } else { Step::Line(*p) }).collect();
    scene.items.push(Item::Path { steps, fill: None, stroke: Some(Stroke::line(Ink::Ink, 1.0)) });
    let paper =
        [Step::Move([0.0, 0.0]), Step::Line([SIZE[0], 0.0]), Step::Line(SIZE), Step::Line([0.0, SIZE[1]]), Step::Close];
    scene.items.insert(0, Item::Path { steps: paper.to_vec(), fill: Some(Fill::solid(Ink::Paper)), stroke: None });
    scene
}
