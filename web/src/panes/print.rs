//! One sheet of paper: drawing, curves, readings and title block, all from vectors, put together when the browser prints.

use crate::app::App;
use crate::browser::dom::{find, make, on, set, window};
use crate::browser::page::Page;
use crate::document::Quantity;
use crate::drawing::{Arrangement, Sheet, Theme, draw, projection_symbol, scale_bar};
use crate::plot::{Plot, scene};
use crate::svg::svg;
use web_sys::{Element, Event, HtmlElement};

/// The drawing's part of an A4 sheet lying down, px, and its free quarter for the curves; the style sheet has the same.
const DRAWING: [f64; 2] = [744.0, 716.0];
const CURVES: [f64; 2] = [280.0, 300.0];

/// As many curves as fit their quarter in two columns.
const MOST: usize = 6;

/// Puts the sheet together before printing and takes it away after.
pub fn prepare(page: &Page) {
    let printed = page.clone();
    on(&window(), "beforeprint", move |_: Event| printed.with(fill));
    on(&window(), "afterprint", |_: Event| find::<HtmlElement>("print").set_text_content(None));
}

fn fill(app: &App) {
    let sheet: HtmlElement = find("print");
    sheet.set_text_content(None);
    let part = |class: &str| {
        let part: Element = make(&sheet, "div");
        set(&part, "class", class);
        part
    };
    let picture = app.picture();
    let paper = Sheet::fit(DRAWING, Arrangement::Cross { drawer: CURVES }, &picture);
    part("print-drawing").set_inner_html(&svg(&draw(&picture, &paper), Theme::LIGHT));
    curves(&part("print-curves"), app);
    // The page's own table and title block, as they stand.
    let column = part("print-column");
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
}

fn curves(place: &Element, app: &App) {
    let size = [(CURVES[0] - 12.0) / 2.0, (CURVES[1] - 12.0) / 3.0 - 18.0];
    for quantity in app.document.pinned.iter().filter_map(|column| Quantity::named(column)).take(MOST) {
        let Some(plot) = Plot::new(&app.study.good, &app.document, quantity) else { continue };
        let figure: Element = make(place, "figure");
        let caption: Element = make(&figure, "figcaption");
        let now = app.document.units.quantity(app.study.good.value(quantity), quantity);
        caption.set_text_content(Some(&format!("{} {now}", quantity.name())));
        make::<Element>(&figure, "div").set_inner_html(&svg(&scene(&plot, size), Theme::LIGHT));
    }
}
