//! Spread: how far readings may be off where points are known to ± so much: by slopes at once, by drawn axles when asked. Brought up to date only while
//! it is shown.

mod drawn;
mod words;

use super::boxes::Markup;
use super::followed::Followed;
use super::pressed::Pressed;
use super::rows::Rows;
use crate::app::{App, Edit, Hand, Margin, Point};
use crate::browser::dom::{Shown, find, make, on, set};
use crate::browser::page::{Page, Pane};
use crate::content::measured;
use crate::link;
use crate::work::spread::{COUNT, Question, Told};
use drawn::Drawn;
use kernel::PointId;
use kernel::vary::{Distribution, Kind, Parameter, Quantity};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlElement, HtmlSelectElement};

/// The pane.
pub struct SpreadPane {
    whole: HtmlElement,
    hand: Rc<InHand>,
    kinds: Pressed<Kind>,
    distributions: Pressed<Distribution>,
    kind: Shown,
    none: HtmlElement,
    no_error: Shown,
    told: HtmlElement,
    table: Rows,
    linear: Followed<Question, Result<Told, String>>,
    drawn: Rc<Drawn>,
    bars: Markup,
    better: Shown,
    prepared: Element,
    shares: Element,
    written: RefCell<Vec<(PointId, String)>>,
}

/// What hands have chosen; kept in no document.
struct InHand {
    reading: Cell<&'static str>,
    list: HtmlSelectElement,
    names: RefCell<Vec<String>>,
    columns: RefCell<Vec<&'static str>>,
}

/// What is always told, before what is pinned.
const FIRST: [&str; 5] = ["toe_deg", "camber_deg", "caster_deg", "scrub_radius_mm", "kingpin_offset_wheel_centre_mm"];

/// What the button gives every joint, mm: plumb bob and tape (common practice).
const USUAL: f64 = 2.0;

/// So many coordinates are named.
const NAMED: usize = 8;

impl SpreadPane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> SpreadPane {
        let hand = Rc::new(InHand {
            reading: Cell::new(FIRST[4]),
            list: find("spread-reading"),
            names: RefCell::default(),
            columns: RefCell::default(),
        });
        let drawn = Rc::new(Drawn::new(page));
        let kinds = [(Kind::Design, "spread-measured"), (Kind::Build, "spread-built")];
        let kinds = Pressed::new(page, &kinds, |page, kind| page.send(Margin::Kind(kind)));
        let distributions = [(Distribution::Uniform, "spread-uniform"), (Distribution::Normal, "spread-normal")];
        let distributions =
            Pressed::new(page, &distributions, |page, distribution| page.send(Margin::Distribution(distribution)));
        let giving = page.clone();
        on(&find::<Element>("spread-all"), "click", move |_: Event| {
            giving.send(Edit::Point(Point::ErrorOfJoints(USUAL)));
        });
        let (drawing, of, draws) = (page.clone(), hand.clone(), drawn.clone());
        on(&find::<Element>("spread-draw"), "click", move |_: Event| {
            if let Some(question) = drawing.with(|app| of.question(app)) {
                draws.begin(question, COUNT);
            }
        });
        let (page_of, of, list) = (page.clone(), hand.clone(), hand.list.clone());
        on(&hand.list, "change", move |_: Event| {
            let at = usize::try_from(list.selected_index()).unwrap_or_default();
            if let Some(column) = of.columns.borrow().get(at) {
                of.reading.set(column);
            }
            page_of.change();
        });
        let (shares, selecting) = (find::<Element>("spread-shares"), page.clone());
        on(&shares, "click", move |event: Event| {
            let Some(button) = event.target().and_then(|target| target.dyn_into::<Element>().ok()) else { return };
            let point = button.get_attribute("data-point").and_then(|code| PointId::coded(&code));
            if point.is_some() {
                selecting.send(Hand::Select(point));
                selecting.say(&button.text_content().unwrap_or_default());
            }
        });
        SpreadPane {
            whole: find("spread"),
            hand,
            kinds,
            distributions,
            kind: Shown::text(find::<Element>("spread-kind")),
            none: find("spread-none"),
            no_error: Shown::text(find::<Element>("spread-where")),
            told: find("spread-told"),
            table: Rows::new("spread-table"),
            linear: Followed::new(|question| question.task(0), Question::read),
            drawn,
            bars: Markup::new("spread-bars"),
            better: Shown::text(find::<Element>("spread-better")),
            prepared: find("prepared-measured"),
            shares,
            written: RefCell::default(),
        }
    }

    fn show_told(&self, app: &App, told: &Told) {
        let units = app.document.units;
        self.table.show(told.lines.iter().filter_map(|line| words::row(units, line)).collect());
        self.hand.show(units);
        let chosen = told.lines.iter().find(|line| line.column == self.hand.reading.get());
        self.bars.show(chosen.and_then(|line| words::bars(units, line)).unwrap_or_default());
        let named = |(parameter, share): &(Parameter, f64)| {
            let label = parameter.label(&app.document.layout);
            // A part that rounds to nothing is not worth a tape.
            (*share >= 0.005).then_some((parameter.point()?, format!("{label}: {:.0} %", share * 100.0)))
        };
        let shares: Vec<_> = chosen.iter().flat_map(|line| &line.shares).filter_map(named).take(NAMED).collect();
        self.better.show(match (shares.is_empty(), app.errors_mean().0) {
            (true, _) => "None of these ± moves this reading.",
            (false, Kind::Design) => {
                "Measure these better first; each has so much of the variance (σ²) of this reading:"
            }
            (false, Kind::Build) => "Build these closer first; each has so much of the variance (σ²) of this reading:",
        });
        self.write(shares);
    }

    fn write(&self, shares: Vec<(PointId, String)>) {
        if *self.written.borrow() == shares {
            return;
        }
        self.shares.set_text_content(None);
        for (point, words) in &shares {
            let button: Element = make(&make::<Element>(&self.shares, "li"), "button");
            button.set_text_content(Some(words));
            set(&button, "data-point", point.code());
        }
        self.written.replace(shares);
    }
}

impl InHand {
    /// What is asked of the car; nothing where no ± is given that counts.
    fn question(&self, app: &App) -> Option<Question> {
        let mut columns: Vec<&'static str> = Vec::new();
        for column in FIRST.iter().chain(&app.document.pinned) {
            let of_a_state = Quantity::named(column).is_some_and(|quantity| !quantity.is_swept());
            if of_a_state && !columns.contains(column) && !app.hides(column) {
                columns.push(column);
            }
        }
        self.columns.replace(columns.clone());
        Some(Question { known: app.known()?, columns })
    }

    /// The list of readings, and which is chosen.
    fn show(&self, units: crate::text::number::Units) {
        let columns = self.columns.borrow();
        let name = |column: &&str| Some(words::shown(units, column)?.0);
        let names: Vec<String> = columns.iter().filter_map(name).collect();
        if *self.names.borrow() != names {
            self.list.set_inner_html("");
            for name in &names {
                make::<Element>(&self.list, "option").set_text_content(Some(name));
            }
            self.names.replace(names);
        }
        let at = columns.iter().position(|column| *column == self.reading.get());
        if at.is_none() {
            self.reading.set(columns.first().copied().unwrap_or_default());
        }
        self.list.set_selected_index(at.and_then(|at| i32::try_from(at).ok()).unwrap_or_default());
    }
}

/// The prepared axle's link.
fn prepare(anchor: &Element) {
    if let Some(document) = measured::document() {
        anchor.set_text_content(Some(measured::NAME));
        set(anchor, "href", &format!("#{}", link::write(&document)));
    }
}

impl Pane for SpreadPane {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        if !self.prepared.has_attribute("href") {
            prepare(&self.prepared);
        }
        let (kind, distribution) = app.errors_mean();
        self.kinds.show(kind);
        self.distributions.show(distribution);
        self.kind.show(words::kind(kind));
        let question = self.hand.question(app);
        self.none.set_hidden(question.is_some());
        self.told.set_hidden(true);
        let Some(question) = question else {
            self.linear.forget();
            self.drawn.forget();
            return self.no_error.show(words::no_error(kind, app.document.errors.is_empty()));
        };
        self.drawn.keep(&question);
        let linear = self.linear.ask(page, app.held(), &question);
        let told = self.drawn.told().map(Ok).or_else(|| linear.map(|(told, _)| (*told).clone()));
        match told {
            Some(Ok(told)) => {
                self.told.set_hidden(false);
                self.show_told(app, &told);
            }
            Some(Err(sentence)) => {
                self.none.set_hidden(false);
                self.no_error.show(&sentence);
            }
            None => {}
        }
    }
}
