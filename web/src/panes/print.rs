//! One sheet of paper: drawing, curves, readings and title block, all from vectors, put together when the browser prints; others for the pictorial view
//! while it is shown and for what is read of the whole axle. Axles side by side have a sheet of their own. On request another in its place: a measuring
//! sheet, the alignment sheet, or worksheets of exercises, which also take the place of the page's own sheet in a lesson; and a page of help while that
//! is read.

mod measuring;
mod worksheet;

use super::{help, protocol};
use crate::app::App;
use crate::browser::address;
use crate::browser::dom::{find, make, on, set, window};
use crate::browser::page::Page;
use crate::content::exercises;
use crate::document::Document;
use crate::drawing::svg::{named, svg};
use crate::drawing::{Arrangement, Sheet, Theme, draw, projection_symbol, scale_bar};
use crate::exchange::as_built::{changes, unusual};
use crate::exchange::row::row;
use crate::plot::{Plot, scene};
use crate::text::caution::STUDY;
use kernel::{READINGS, Reading, Subject};
use std::cell::Cell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlElement};

/// The drawing's part of an A4 sheet lying down, px, and its free quarter for the curves; the style sheet has the same.
const DRAWING: [f64; 2] = [744.0, 716.0];
const CURVES: [f64; 2] = [280.0, 300.0];

/// As many curves as fit their quarter in two columns.
const MOST: usize = 6;

/// Puts a sheet together.
type Fill = fn(&Page);

/// The buttons that print another sheet than the page's own.
const ASKED: [(&str, Fill); 5] = [
    ("row-print", side_by_side),
    ("print-measuring", |page| page.with(measuring::fill)),
    ("align-print", alignment),
    ("print-worksheet", |page| work(page, true)),
    ("print-exercises", |_| {
        let all: Vec<Document> = exercises::all().into_iter().map(|exercise| exercise.document).collect();
        worksheet::fill(&all, &address::link(""), true);
    }),
];

/// Puts the sheet together before printing and takes it away after: the page's own, or the one that is asked for.
pub fn prepare(page: &Page) {
    let own: Fill = own;
    let sheet = Rc::new(Cell::new(own));
    let (printed, asked) = (page.clone(), sheet.clone());
    on(&window(), "beforeprint", move |_: Event| {
        find::<HtmlElement>("print").set_text_content(None);
        asked.get()(&printed);
    });
    on(&window(), "afterprint", |_: Event| find::<HtmlElement>("print").set_text_content(None));
    for (button, other) in ASKED {
        let sheet = sheet.clone();
        on(&find::<Element>(button), "click", move |_: Event| {
            sheet.set(other);
            // Fails where the browser does not print; nothing is lost.
            let _ = window().print();
            sheet.set(own);
        });
    }
}

/// The page's own sheet: in a lesson its worksheets, and a page of help while that is read.
fn own(page: &Page) {
    if help::read().is_some() {
        help::print(page);
    } else if page.with(|app| page.shows_row(app)) {
        side_by_side(page);
    } else if page.with(|app| app.document.lesson.is_some()) {
        work(page, false);
    } else {
        page.with(|app| fill(app, page.seen()));
    }
}

/// The exercise, or the series, that is shown, in order; with the key, for who prepares it.
fn work(page: &Page, key: bool) {
    let (exercises, link) = (page.with(|app| app.document.exercises().0), page.link());
    worksheet::fill(&exercises, &link, key);
}

/// The alignment sheet.
fn alignment(page: &Page) {
    let (sheet, link) = (sheet(), page.link());
    set(&sheet, "class", "print-sheet print-protocol");
    page.with(|app| protocol::fill(&sheet, app, &link));
    foot(&sheet, "Angles as on a printout, toe-in positive, one wheel; caster and inclination from a steering sweep.");
}

/// A new sheet.
fn sheet() -> Element {
    let sheet: Element = make(&find::<Element>("print"), "div");
    set(&sheet, "class", "print-sheet");
    sheet
}

/// The paper of a sheet lying down, px: within its frame.
const WHOLE: [f64; 2] = [1055.0, 717.0];

/// The axles side by side, as they are seen on the page.
fn side_by_side(page: &Page) {
    let (sheet, link, seen) = (sheet(), page.link(), page.row_seen());
    sheet.set_inner_html(&page.with(|app| svg(&row(app, seen, WHOLE, &link), Theme::LIGHT)));
}

/// The last line of a sheet, which ends with the caution.
fn foot(sheet: &Element, says: &str) {
    let foot: Element = make(sheet, "p");
    set(&foot, "class", "print-foot");
    foot.set_text_content(Some(&format!("{says} {STUDY}")));
}

fn fill(app: &App, seen: Option<Arrangement>) {
    let first = sheet();
    let part = |class: &str| {
        let part: Element = make(&first, "div");
        set(&part, "class", class);
        part
    };
    let picture = app.picture();
    let paper = Sheet::fit(DRAWING, Arrangement::Cross { drawer: CURVES }, &picture);
    part("print-drawing").set_inner_html(&svg(&draw(&picture, &paper), Theme::LIGHT));
    curves(&part("print-curves"), app);
    // The page's own table and title block, as they stand.
    let column = part("print-column");
    for words in unusual(app).into_iter().chain(app.margins_mean()) {
        part("print-built").set_text_content(Some(&words));
    }
    for id in ["readings", "title-block"] {
        if let Ok(copy) = find::<Element>(id).clone_node_with_deep(true) {
            let _ = column.append_child(&copy);
        }
    }
    for (selector, symbol) in [("#projection", projection_symbol()), ("#scale", scale_bar(&paper))] {
        if let Ok(Some(place)) = column.query_selector(selector) {
            place.set_inner_html(&svg(&symbol, Theme::LIGHT));
        }
    }
    if let Some(seen) = seen {
        pictorial(app, seen);
    }
    if let (Some(_), Ok(Some(rows))) = (&app.study.good.whole, column.query_selector("#group-axle")) {
        rows.remove();
        whole_axle(app);
    }
    if !find::<HtmlElement>("influence").hidden() {
        influence(app);
    }
}

/// The pictorial view's part of a sheet of its own, px.
const PICTORIAL: [f64; 2] = [1055.0, 690.0];

/// The pictorial view as it is seen on the page.
fn pictorial(app: &App, seen: Arrangement) {
    let (sheet, picture) = (sheet(), app.picture());
    let paper = Sheet::fit(PICTORIAL, seen, &picture);
    make::<Element>(&sheet, "div").set_inner_html(&named(&draw(&picture, &paper), Theme::LIGHT, "pictorial"));
    foot(&sheet, &format!("{}. {}", app.document.layout.name, changes(&app.document.layout)));
}

/// The influence table as it stands, while its pane is shown.
fn influence(app: &App) {
    let sheet = sheet();
    make::<Element>(&sheet, "h2").set_text_content(Some(&app.document.layout.name));
    for id in ["influence-words", "influence-table"] {
        if let Ok(copy) = find::<Element>(id).clone_node_with_deep(true) {
            let _ = sheet.append_child(&copy);
        }
    }
    foot(
        &sheet,
        &format!("What a little more of each part does where the car stands. {}", changes(&app.document.layout)),
    );
}

/// The whole axle's readings, which would not find room beside those of one wheel, with what they mean.
fn whole_axle(app: &App) {
    let (sheet, places) = (sheet(), app.study.good.now_and_at_rest());
    make::<Element>(&sheet, "h2").set_text_content(Some(&app.document.layout.name));
    let table: Element = make(&sheet, "table");
    let row = |cells: [&str; 5]| {
        let row: Element = make(&table, "tr");
        cells.iter().for_each(|cell| make::<Element>(&row, "td").set_text_content(Some(cell)));
    };
    row(["Axle", "now", "at rest", "positive means", "meaning"]);
    for reading in READINGS.iter().filter(|reading| reading.subject() == Subject::Axle) {
        let units = app.document.units;
        let [now, rest] = places.each_ref().map(|place| app.told(reading, (reading.value)(place)).text(reading, units));
        let name = format!("{} {}", reading.name, units.behind(reading));
        row([name.trim(), &now, &rest, reading.positive, reading.meaning]);
    }
    foot(&sheet, &format!("Both wheels; signs to ISO 8855. {}", changes(&app.document.layout)));
}

fn curves(place: &Element, app: &App) {
    let size = [(CURVES[0] - 12.0) / 2.0, (CURVES[1] - 12.0) / 3.0 - 20.0];
    for reading in app.document.pinned.iter().filter_map(|column| Reading::named(column)).take(MOST) {
        let Some(plot) = Plot::new(&app.study, &app.document, reading) else { continue };
        let plot = plot.within(app.band(reading).filter(|band| !band.stale), app.document.over);
        let figure: Element = make(place, "figure");
        let caption: Element = make(&figure, "figcaption");
        make::<Element>(&caption, "span").set_text_content(Some(&reading.full_name()));
        make::<Element>(&caption, "b")
            .set_text_content(Some(&(app.told_now(reading) + &app.printed_plus_minus(reading))));
        make::<Element>(&figure, "div").set_inner_html(&svg(&scene(&plot, size), Theme::LIGHT));
    }
}
