//! A measuring sheet: the axle's points numbered on its own drawing, the planes of reference, the method, and blank cells to fill in under the car.

use super::{foot, sheet};
use crate::app::App;
use crate::browser::dom::{make, set};
use crate::document::Document;
use crate::drawing::svg::svg;
use crate::drawing::{Arrangement, Sheet, Theme, numbered};
use kernel::{Changes, Layout};
use web_sys::Element;

/// The drawing's part of the sheet, and its free quarter for the method, px; the style sheet has the same.
const DRAWING: [f64; 2] = [690.0, 692.0];
const METHOD: [f64; 2] = [290.0, 268.0];

const STEPS: [&str; 5] = [
    "Stand the car on level ground at its usual ride height, wheels straight ahead. Chalk two lines on the floor: the centre plane, midway between like points left and right; and square to it the line below both wheel centres.",
    "Hang a plumb line from the middle of each numbered point and mark where it meets the floor.",
    "From each mark measure x forward of the wheel-centre line (behind it: −) and y outward from the centre plane.",
    "Measure z straight up from the floor to the middle of the point.",
    "Measure everything twice, from the start. Write down the mean, and as ± at least the difference: 2 to 3 mm are usual with tape and plumb line.",
];

const CAUTION: &str = "Never get under a car on a jack: use a pit, a lift or ramps made for its weight, wheels chocked. Keep clear of springs, hot and moving parts.";

/// Puts the sheet together, for the design at rest whatever is shown.
pub fn fill(app: &App) {
    let layout = Layout { changes: Changes::default(), ..app.document.layout.clone() };
    let units = app.document.units;
    let at_rest = App::new(Document { units, ..Document::of(layout) }, Vec::new());
    let sheet = sheet();
    let part = |class: &str| {
        let part: Element = make(&sheet, "div");
        set(&part, "class", class);
        part
    };
    let line = |place: &Element, tag: &str, text: &str| make::<Element>(place, tag).set_text_content(Some(text));
    let picture = at_rest.picture();
    let paper = Sheet::fit(DRAWING, Arrangement::Cross { drawer: METHOD }, &picture);
    part("print-drawing").set_inner_html(&svg(&numbered(&picture, &paper), Theme::LIGHT));
    let method = part("print-method");
    let steps: Element = make(&method, "ol");
    STEPS.iter().for_each(|step| line(&steps, "li", step));
    line(&method, "b", CAUTION);
    let column = part("print-measured");
    line(&column, "h2", &at_rest.document.layout.name);
    line(&column, "p", "Car: ____________________  Date: __________  By: __________");
    let table: Element = make(&column, "table");
    let row = |tag: &str, cells: [&str; 6]| {
        let row: Element = make(&table, "tr");
        cells.iter().for_each(|text| line(&row, tag, text));
    };
    row("th", ["", &format!("Left wheel, {}", units.length_name()), "x", "y", "z", "±"]);
    for (at, (id, _)) in at_rest.document.layout.points().enumerate() {
        row("td", [&(at + 1).to_string(), id.name(), "", "", "", ""]);
    }
    foot(&sheet, "Measuring sheet. Type it back on the page under Measure, in this order; cells may stay blank.");
}
