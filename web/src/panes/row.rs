//! Axles side by side, in the place of the drawing: the document's own first, each in a drawing of its own on the same sheet, with the pinned
//! readings below. They are for looking at; what moves them moves all: a wheel or a rack that is dragged, and the sliders.

mod cell;

use crate::app::{App, Beside, InRow};
use crate::browser::dom::{Shown, find, on};
use crate::browser::files;
use crate::browser::page::{Page, Pane};
use crate::browser::window::{Size, matches};
use crate::drawing::svg::svg;
use crate::drawing::{Picture, Scene, Theme, View, scale_bar};
use crate::exchange::row::{PICTURE, row};
use cell::Cell;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Element, Event, HtmlButtonElement, HtmlElement};

/// The row.
pub struct RowPane {
    place: HtmlElement,
    /// For the style: what else the sheet shows.
    covers: Shown,
    /// Whether there are axles beside the own one, and whether they are shown, when last looked at.
    was: std::cell::Cell<[bool; 2]>,
    cells: Vec<Cell>,
    size: Size,
    views: [(View, Shown); 4],
    scale: Element,
    /// What the bar was drawn for: px per mm, and the theme.
    barred: std::cell::Cell<Option<(f64, Theme)>>,
    next: HtmlButtonElement,
    next_says: Shown,
    /// In the drawing: the way back to the row.
    back: HtmlElement,
}

/// The page shows two axles where it is no wider.
const TWO: &str = "(max-width: 699px)";

const VIEWS: [(View, &str); 4] = [
    (View::Front, "row-front"),
    (View::Side, "row-side"),
    (View::Plan, "row-plan"),
    (View::Pictorial, "row-pictorial"),
];

impl RowPane {
    /// Finds its place on the page and gives its parts their work.
    pub fn new(page: &Page) -> RowPane {
        let axles: Element = find("row-axles");
        let cells: Vec<Cell> = (0..=crate::document::MOST_BESIDE).map(|at| Cell::new(page, &axles, at)).collect();
        let views = VIEWS.map(|(view, id)| {
            let (button, page) = (find::<Element>(id), page.clone());
            on(&button, "click", move |_: Event| page.set_row_view(view));
            (view, Shown::attribute(button, "aria-pressed"))
        });
        click(page, "view-row", |page| page.show_row(true));
        click(page, "row-away", |page| page.show_row(false));
        click(page, "row-add", super::compare::open_beside);
        click(page, "row-next", |page| {
            page.choose_in_row((page.chosen_in_row() + 1) % page.with(|app| app.document.beside.len()).max(1));
        });
        click(page, "row-svg", |page| {
            files::save("side-by-side.svg", "image/svg+xml", &svg(&picture(page), Theme::LIGHT));
        });
        click(page, "row-png", |page| {
            if let Some(png) = files::png(&picture(page), Theme::LIGHT) {
                spawn_local(async {
                    let _ = files::save_png("side-by-side.png", png).await;
                });
            }
        });
        let resized = page.clone();
        let next: HtmlButtonElement = find("row-next");
        RowPane {
            place: find("row"),
            covers: Shown::attribute(find::<Element>("sheet"), "data-row"),
            was: std::cell::Cell::default(),
            size: Size::of(&cells[0].drawing, move || resized.refit()),
            cells,
            views,
            scale: find("row-scale"),
            barred: std::cell::Cell::default(),
            next_says: Shown::text(next.clone()),
            next,
            back: find("view-row"),
        }
    }

    /// Which axles there is room for, by their places in the row.
    fn places(&self, page: &Page, others: usize) -> Vec<usize> {
        let two = matches(TWO) && others > 1;
        self.next.set_hidden(!two);
        if !two {
            return (0..=others).collect();
        }
        let chosen = page.chosen_in_row().min(others - 1);
        self.next_says.show(&format!("Next axle ({} of {others})", chosen + 1));
        vec![0, chosen + 1]
    }

    fn draw(&self, page: &Page, app: &App) {
        let row = app.row();
        let shown = self.places(page, row.len() - 1);
        for (at, cell) in self.cells.iter().enumerate() {
            cell.place.set_hidden(!shown.contains(&at));
        }
        let there = |at: &usize| row.get(*at).map(|axle| (*at, axle));
        let axles: Vec<(usize, &InRow)> = shown.iter().filter_map(there).collect();
        let Some(size) = self.size.get() else {
            // The drawings follow once they have a size.
            return axles.iter().for_each(|(at, axle)| self.cells[*at].write(axle));
        };
        let pictures: Vec<Picture> = axles.iter().filter_map(|(_, axle)| axle.picture).collect();
        let sheet = page.fit_row(size, &pictures);
        // Canvases first, as everywhere in a frame.
        axles.iter().for_each(|(at, axle)| self.cells[*at].draw(page, axle, &sheet));
        axles.iter().for_each(|(at, axle)| self.cells[*at].write(axle));
        let bar = Some((sheet.scale(), page.theme()));
        if self.barred.replace(bar) != bar {
            self.scale.set_inner_html(&svg(&scale_bar(&sheet), page.theme()));
        }
        for (view, pressed) in &self.views {
            pressed.show(if *view == page.row_seen().view { "true" } else { "false" });
        }
    }
}

impl Pane for RowPane {
    fn show(&self, page: &Page, app: &App) {
        let shown = page.shows_row(app);
        let are = [!app.document.beside.is_empty(), shown];
        if self.was.replace(are) != are {
            self.back.set_hidden(!are[0]);
            self.place.set_hidden(!shown);
        }
        self.covers.show(if shown { "true" } else { "false" });
        if shown {
            self.draw(page, app);
        }
    }
}

fn click(page: &Page, id: &str, act: fn(&Page)) {
    let page = page.clone();
    on(&find::<Element>(id), "click", move |_: Event| act(&page));
}

/// The row as a picture, as wide as it has axles.
fn picture(page: &Page) -> Scene {
    let (link, seen) = (page.link(), page.row_seen());
    page.with(|app| {
        let [two, more] = PICTURE;
        let further = app.document.beside.len().saturating_sub(1) as f64;
        row(app, seen, [two[0] + further * more[0], two[1]], &link)
    })
}

/// One axle goes; with the last the drawing has its place back.
fn take_out(page: &Page, at: usize) {
    page.send(Beside::TakeOut(at));
    page.refit();
}
