//! The readings: now, at rest, least and greatest over travel, a sparkline; a click pins one to the curves.

mod folded;

use crate::app::{App, FOLDED, Show};
use crate::browser::dom::{Shown, Veil, find, make, on, set, window};
use crate::browser::page::{Page, Pane};
use crate::browser::window::{Sight, theme};
use crate::drawing::svg::svg;
use crate::drawing::{Theme, sketch};
use crate::plot::sparkline;
use crate::text::number::Units;
use folded::FoldedGroup;
use kernel::{Group, LeftOrRight, READINGS, Reading, Subject, Unit};
use web_sys::{Element, Event, HtmlElement, KeyboardEvent};

/// Each group with its heading.
const GROUPS: [(Group, &str); 9] = [
    (Group::Wheel, "Wheel"),
    (Group::SteeringAxis, "Steering axis"),
    (Group::Rig, "As a rig measures it"),
    (Group::LeverArms, "Lever arms about the steering axis"),
    (Group::Bump, "Wheel travel"),
    (Group::HalfShaft, "Half-shaft"),
    (Group::Compliance, "Compliance"),
    (Group::Space, "Wheel space"),
    (Group::Axle, "Axle"),
];

/// The id of a group's rows.
fn rows_id(group: Group) -> String {
    format!("group-{}", group.id())
}

/// A sparkline's box, px.
const SPARK: [f64; 2] = [40.0, 16.0];

/// The table.
pub struct Readings {
    whole: Shown,
    /// The three choices of unit.
    units: [Shown; 3],
    /// Heads of the columns of values.
    heads: [Shown; 4],
    rows: Vec<Row>,
    folds: Vec<FoldedGroup>,
    /// Not every axle has one, and not always are both wheels shown.
    half_shaft: Veil,
    axle: Veil,
}

struct Row {
    reading: &'static Reading,
    sight: Sight,
    behind: Shown,
    pinned: Shown,
    now: Shown,
    /// Its ±, and whether that is pale.
    off: [Shown; 2],
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
        let (mut rows, mut folds) = (Vec::new(), Vec::new());
        for (group, name) in GROUPS {
            let body: Element = make(&table, "tbody");
            set(&body, "id", &rows_id(group));
            let heading: Element = make(&make::<Element>(&body, "tr"), "th");
            set(&heading, "scope", "rowgroup");
            set(&heading, "colspan", "6");
            match FOLDED.contains(&group) {
                true => folds.push(FoldedGroup::new(page, &body, &heading, group, name)),
                false => heading.set_text_content(Some(name)),
            }
            let readings = READINGS.iter().filter(|reading| reading.group == group);
            rows.extend(readings.map(|reading| Row::new(page, &body, reading)));
        }
        Readings {
            whole: Shown::attribute(find::<Element>("readings"), "class"),
            heads: ["now", "stand", "least", "most"].map(|id| Shown::text(find::<Element>(id))),
            units: units(page),
            rows,
            folds,
            half_shaft: Veil::of(&rows_id(Group::HalfShaft)),
            axle: Veil::of(&rows_id(Group::Axle)),
        }
    }
}

/// The three buttons that change what lengths, angles and toe are shown in.
fn units(page: &Page) -> [Shown; 3] {
    type Turn = (&'static str, fn(&mut Units));
    let turns: [Turn; 3] = [
        ("unit-length", |units| units.inches = !units.inches),
        ("unit-angle", |units| units.minutes = !units.minutes),
        ("unit-toe", |units| units.total_toe = !units.total_toe),
    ];
    turns.map(|(id, turn)| {
        let (button, page) = (find::<Element>(id), page.clone());
        on(&button, "click", move |_: Event| {
            let mut units = page.with(|app| app.document.units);
            turn(&mut units);
            page.send(Show::Units(units));
        });
        Shown::text(button)
    })
}

impl Row {
    fn new(page: &Page, body: &Element, reading: &'static Reading) -> Row {
        let row: Element = make(body, "tr");
        set(&row, "data-reading", reading.column);
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let button: Element = make(&heading, "button");
        button.set_text_content(Some(reading.name));
        let behind = Shown::text(make::<Element>(&button, "small"));
        set(&button, "aria-describedby", "explanation");
        explain(&row, reading);
        let came = page.clone();
        let sight = Sight::of(&row, move || came.change());
        let page = page.clone();
        on(&button, "click", move |_: Event| page.send(Show::Pin(reading.column)));
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
            sight,
            behind,
            pinned: Shown::attribute(button, "aria-pressed"),
            off: ["data-off", "data-stale"].map(|name| Shown::attribute(now.clone(), name)),
            now: Shown::text(now),
            rest: Shown::text(rest),
            least: Shown::text(least),
            most: Shown::text(most),
            path: Shown::attribute(path, "d"),
            dot: ["cx", "cy"].map(|name| Shown::attribute(dot.clone(), name)),
        }
    }

    fn show(&self, app: &App) {
        let (reading, good, units) = (self.reading, &app.study.good, app.document.units);
        let hidden = app.hides(reading.column);
        let text = |value: Option<f64>| app.told(reading, value).text(reading, units);
        self.behind.show(units.behind(reading));
        self.pinned.show(if app.document.pinned.contains(&reading.column) { "true" } else { "false" });
        self.now.show(&text(good.value(reading)));
        let off = app.plus_minus(reading);
        self.off[0].show(off.as_ref().map_or("", |off| &off.text));
        self.off[1].show(if off.is_some_and(|off| off.stale) { "true" } else { "false" });
        let columns = app.study.beside(reading, app.document.compared.is_some());
        for (cell, value) in [&self.rest, &self.least, &self.most].into_iter().zip(columns) {
            cell.show(&text(value));
        }
        let spark = match reading.subject() {
            Subject::Axle => None,
            _ if hidden => None,
            _ => sparkline(good, reading, SPARK),
        };
        let (path, [x, y]) = spark.unwrap_or((String::new(), [-9.0, -9.0]));
        self.path.show(&path);
        self.dot[0].show(&format!("{x:.1}"));
        self.dot[1].show(&format!("{y:.1}"));
    }
}

/// Explains a reading while the pointer or the focus is on its row; Escape puts the explanation away.
fn explain(row: &Element, reading: &'static Reading) {
    let explanation: HtmlElement = find("explanation");
    for event in ["pointerenter", "focusin"] {
        let (explanation, row) = (explanation.clone(), row.clone());
        on(&row.clone(), event, move |_: Event| {
            fill(&explanation, reading, theme());
            explanation.set_hidden(false);
            // Beside the row, but wholly on the screen.
            let lowest = window_height() - f64::from(explanation.offset_height()) - 8.0;
            let top = row.get_bounding_client_rect().top().min(lowest);
            let _ = explanation.style().set_property("--top", &format!("{}px", top.max(8.0)));
        });
    }
    for event in ["pointerleave", "focusout"] {
        let explanation = explanation.clone();
        on(row, event, move |_: Event| explanation.set_hidden(true));
    }
    on(row, "keydown", move |event: KeyboardEvent| {
        if event.key() == "Escape" {
            explanation.set_hidden(true);
        }
    });
}

fn window_height() -> f64 {
    window().inner_height().ok().and_then(|height| height.as_f64()).unwrap_or_default()
}

/// Sketch, name, meaning, sign, formula, other names, source.
fn fill(explanation: &HtmlElement, reading: &Reading, theme: Theme) {
    let Reading { name, meaning, positive, formula, also, source, .. } = reading;
    explanation.set_text_content(None);
    if let Some(sketch) = sketch(reading.short()) {
        let figure: Element = make(explanation, "figure");
        set(&figure, "aria-hidden", "true");
        figure.set_inner_html(&svg(&sketch, theme));
    }
    make::<Element>(explanation, "b").set_text_content(Some(name));
    let unit = match reading.unit {
        Unit::Millimetre => "mm",
        Unit::Degree => "degrees",
        Unit::MillimetrePerRadian => "mm per radian",
        Unit::DegreePerMillimetre => "degrees per 10 mm of wheel travel",
        Unit::One => "a ratio",
        Unit::Percent => "percent",
        Unit::Metre => "m",
        Unit::NewtonMetre => "N·m",
        Unit::NewtonPerMillimetre => "N per mm",
        Unit::NewtonMetrePerDegree => "N·m per degree",
        Unit::Hertz => "Hz",
        Unit::Gravity => "g",
        Unit::DegreePerKilonewton => "degrees per kN",
        Unit::MillimetrePerKilonewton => "mm per kN",
        Unit::DegreePerHundredNewtonMetres => "degrees per 100 N·m",
    };
    for (label, text) in [
        ("", *meaning),
        ("Positive: ", positive),
        ("Unit: ", unit),
        ("Formula: ", formula),
        ("Also called: ", also),
        ("Source: ", source),
    ] {
        if !text.is_empty() {
            make::<Element>(explanation, "p").set_text_content(Some(&format!("{label}{text}")));
        }
    }
}

impl Pane for Readings {
    fn show(&self, _: &Page, app: &App) {
        let compared = if app.document.compared.is_some() { " compared" } else { "" };
        let stale = if app.study.trouble.is_some() { " stale" } else { "" };
        self.whole.show(&format!("readings{compared}{stale}"));
        let Units { inches, minutes, total_toe } = app.document.units;
        self.units[0].show(if inches { "inches" } else { "mm" });
        self.units[1].show(if minutes { "minutes" } else { "degrees" });
        self.units[2].show(if total_toe { "total toe" } else { "toe per wheel" });
        let stand = match app.document.ride() {
            0.0 => "at rest".into(),
            ride => format!("at {}", app.document.units.signed_length(ride)),
        };
        let axle = &app.study.good.axle;
        let [own, other] = match axle.sides_differ() {
            true => [axle.shown(), LeftOrRight::BOTH[1 - axle.shown().index()]].map(LeftOrRight::name),
            false => ["now", ""],
        };
        let heads = match (app.document.compared.is_some(), other) {
            (true, "") => [own, "compared", "difference", &stand],
            (true, other) => [own, "compared", "difference", other],
            (false, "") => [own, &stand, "smallest", "largest"],
            (false, other) => [own, other, "difference", &stand],
        };
        for (head, text) in self.heads.iter().zip(heads) {
            head.show(text);
        }
        let (half_shaft, axle) = (app.study.good.layout().half_shaft.is_some(), app.study.good.whole.is_some());
        self.half_shaft.set_hidden(!half_shaft);
        self.axle.set_hidden(!axle);
        self.folds.iter().for_each(|group| group.show(app));
        let shown = |row: &&Row| match row.reading.group {
            Group::HalfShaft => half_shaft,
            Group::Axle => axle,
            group => app.unfolds(group),
        };
        // While a hand holds something, rows that are scrolled out of sight wait until it lets go, or until they come into it.
        let shown = |row: &&Row| shown(row) && (row.sight.seen() || !app.held());
        self.rows.iter().filter(shown).for_each(|row| row.show(app));
    }
}
