//! The readings: now, at rest, least and greatest over travel, a sparkline; a click pins one to the curves.

use crate::app::{App, Message};
use crate::browser::dom::{Shown, find, make, on, set};
use crate::browser::page::{Page, Pane};
use crate::number::{fixed, reading as shown};
use crate::plot::sparkline;
use kernel::{Group, READINGS, Reading, Unit};
use web_sys::{Element, Event};

const GROUPS: [(Group, &str); 4] = [
    (Group::Wheel, "Wheel"),
    (Group::SteeringAxis, "Steering axis"),
    (Group::LeverArms, "Lever arms"),
    (Group::Bump, "Bump"),
];

/// A sparkline's box, px.
const SPARK: [f64; 2] = [40.0, 16.0];

/// The table.
pub struct Readings {
    whole: Shown,
    rows: Vec<Row>,
}

struct Row {
    reading: &'static Reading,
    pinned: Shown,
    now: Shown,
    rest: Shown,
    least: Shown,
    most: Shown,
    path: Shown,
    dot: [Shown; 2],
}

impl Readings {
    /// Makes the table.
    pub fn new(page: &Page) -> Readings {
        let table: Element = find("reading-rows");
        let mut rows = Vec::new();
        for (group, name) in GROUPS {
            let body: Element = make(&table, "tbody");
            let heading: Element = make(&make::<Element>(&body, "tr"), "th");
            set(&heading, "scope", "rowgroup");
            set(&heading, "colspan", "6");
            heading.set_text_content(Some(name));
            rows.extend(
                READINGS.iter().filter(|reading| reading.group == group).map(|reading| Row::new(page, &body, reading)),
            );
        }
        Readings { whole: Shown::attribute(find::<Element>("readings"), "class"), rows }
    }
}

impl Row {
    fn new(page: &Page, body: &Element, reading: &'static Reading) -> Row {
        let row: Element = make(body, "tr");
        set(&row, "data-reading", reading.column);
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let button: Element = make(&heading, "button");
        button.set_text_content(Some(reading.name));
        make::<Element>(&button, "small").set_text_content(Some(unit(reading)));
        set(&button, "title", &explanation(reading));
        let page = page.clone();
        on(&button, "click", move |_: Event| page.send(Message::Pin(reading.column)));
        let cell = |class: &str| {
            let cell: Element = make(&row, "td");
            set(&cell, "class", class);
            cell
        };
        let (now, rest, least, most) = (cell("now"), cell("rest"), cell("least"), cell("most"));
        let svg: Element = make(&cell("spark"), "svg");
        set(&svg, "viewBox", &format!("0 0 {} {}", SPARK[0], SPARK[1]));
        set(&svg, "aria-hidden", "true");
        let (path, dot): (Element, Element) = (make(&svg, "path"), make(&svg, "circle"));
        set(&dot, "r", "2.5");
        Row {
            reading,
            pinned: Shown::attribute(button, "aria-pressed"),
            now: Shown::text(now),
            rest: Shown::text(rest),
            least: Shown::text(least),
            most: Shown::text(most),
            path: Shown::attribute(path, "d"),
            dot: ["cx", "cy"].map(|name| Shown::attribute(dot.clone(), name)),
        }
    }

    fn show(&self, app: &App) {
        let (reading, good) = (self.reading, &app.study.good);
        let text = |value: Option<f64>| shown(value, reading.unit);
        self.pinned.show(if app.document.pinned.contains(&reading.column) { "true" } else { "false" });
        self.now.show(&text((reading.value)(&good.now)));
        self.rest.show(&text((reading.value)(&good.rest)));
        let range = good.over_travel.range(reading.value);
        self.least.show(&text(range.map(|range| range.0)));
        self.most.show(&text(range.map(|range| range.1)));
        let (path, [x, y]) =
            sparkline(&good.over_travel, &good.now, reading, SPARK).unwrap_or((String::new(), [-9.0, -9.0]));
        self.path.show(&path);
        self.dot[0].show(&format!("{x:.1}"));
        self.dot[1].show(&format!("{y:.1}"));
    }
}

/// What stands behind a name where the unit is neither mm nor plain degrees.
fn unit(reading: &Reading) -> &'static str {
    match reading.unit {
        Unit::MillimetrePerRadian => "mm/rad",
        Unit::DegreePerMillimetre => "°/10 mm",
        Unit::Millimetre | Unit::Degree | Unit::One => "",
    }
}

fn explanation(reading: &Reading) -> String {
    let Reading { name, meaning, positive, formula, source, .. } = reading;
    format!("{name}: {meaning}\nPositive when: {positive}.\n{formula}\nSource: {source}.")
}

impl Pane for Readings {
    fn show(&self, _: &Page, app: &App) {
        self.whole.show(if app.study.trouble.is_some() { "readings stale" } else { "readings" });
        self.rows.iter().for_each(|row| row.show(app));
    }
}

/// The chief reading as a short sentence part, for the live region.
pub fn chief(app: &App) -> String {
    let offset =
        Reading::named("kingpin_offset_wheel_centre_mm").and_then(|reading| (reading.value)(&app.study.good.now));
    offset.map_or(String::new(), |offset| format!("; kingpin offset at wheel centre {}", fixed(offset, 1)))
}
