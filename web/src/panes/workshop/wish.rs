//! A reading is set where the car stands: by what, how far, what is left over and what else moves, before it is done.

use crate::app::{App, Build, Edit};
use crate::browser::dom::{Shown, find, make, on};
use crate::browser::page::Page;
use crate::panes::boxes::choice;
use crate::panes::number_box::NumberBox;
use crate::panes::rows::Rows;
use crate::study::setting::{Proposal, SETTABLE, Wish};
use crate::text::change::moved;
use kernel::{Reading, Sides};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{Element, Event, HtmlButtonElement, HtmlElement, HtmlSelectElement};

/// What is wanted, by the hand's choice; kept in no document.
#[derive(Default)]
struct Wanted {
    /// Which reading, of those that can be set.
    reading: Cell<usize>,
    /// By which of its tools.
    tool: Cell<usize>,
    /// The value, in the reading's unit; `None` until one is typed.
    value: Cell<Option<f64>>,
}

/// The reading, the tool, the value, and what would come of it.
pub struct Wishing {
    sides: Rc<Cell<Sides>>,
    wanted: Rc<Wanted>,
    by: HtmlSelectElement,
    names: RefCell<Vec<String>>,
    number: NumberBox,
    unit: Shown,
    words: Shown,
    effects: (HtmlElement, Rows),
    take: HtmlButtonElement,
}

fn column(wanted: &Wanted) -> &'static str {
    SETTABLE.get(wanted.reading.get()).unwrap_or(&SETTABLE[0])
}

fn reading(wanted: &Wanted) -> Option<&'static Reading> {
    Reading::named(column(wanted))
}

/// The wish, once a value is typed.
fn wish(app: &App, wanted: &Wanted, sides: Sides) -> Option<Wish> {
    let by = app.tools_for(column(wanted)).into_iter().nth(wanted.tool.get())?.adjuster;
    Some(Wish { sides, column: column(wanted), wanted: wanted.value.get()?, by })
}

impl Wishing {
    /// Finds it on the page.
    pub fn new(page: &Page, sides: &Rc<Cell<Sides>>) -> Wishing {
        let wanted: Rc<Wanted> = Rc::default();
        let reset = page.clone();
        on(&find::<Element>("reset-toe"), "click", move |_: Event| reset.send(Edit::Build(Build::ResetToe)));
        let names: Vec<&str> = SETTABLE.iter().filter_map(|column| Some(Reading::named(column)?.name)).collect();
        chosen(page, "wish-reading", &names, &wanted, |wanted, at| {
            wanted.reading.set(at);
            wanted.tool.set(0);
            wanted.value.set(None);
        });
        let by = chosen(page, "wish-by", &[], &wanted, |wanted, at| wanted.tool.set(at));
        let (typed, place) = (wanted.clone(), find::<Element>("wish"));
        let number = NumberBox::named(page, &place, "to", move |page, value| {
            let factor = page.with(|app| reading(&typed).map(|reading| app.document.units.shown(reading).1));
            typed.value.set(factor.map(|factor| value / factor));
            page.change();
        });
        let unit = Shown::text(make::<Element>(&place, "span"));
        let take: HtmlButtonElement = find("take-wish");
        let (taken, page, of) = (wanted.clone(), page.clone(), sides.clone());
        on(&take, "click", move |_: Event| {
            let proposal = page.with(|app| app.proposal(&wish(app, &taken, of.get())?));
            if let Some(proposal) = proposal {
                taken.value.set(None);
                page.send(Edit::Build(Build::All(Box::new(proposal.set.changes.clone()))));
            }
        });
        Wishing {
            sides: sides.clone(),
            wanted,
            by,
            names: RefCell::default(),
            number,
            unit,
            words: Shown::text(find::<Element>("proposal")),
            effects: (find("effects"), Rows::new("effects")),
            take,
        }
    }

    /// Shows it.
    pub fn show(&self, app: &App) {
        let Some(reading) = reading(&self.wanted) else { return };
        let (sides, units, column) = (self.sides.get(), app.document.units, column(&self.wanted));
        let names: Vec<String> = app.tools_for(column).into_iter().map(|tool| tool.name).collect();
        if *self.names.borrow() != names {
            self.by.set_inner_html("");
            for name in &names {
                make::<Element>(&self.by, "option").set_text_content(Some(name));
            }
            self.wanted.tool.set(0);
            self.names.replace(names);
        }
        self.by.set_selected_index(i32::try_from(self.wanted.tool.get()).unwrap_or_default());
        let told = |value| app.told(reading, value).text(reading, units);
        self.unit.show(units.behind(reading));
        self.number.show(&told(self.wanted.value.get().or_else(|| app.standing(sides, column))));
        let wish = wish(app, &self.wanted, sides);
        let proposal = wish.as_ref().and_then(|wish| app.proposal(wish));
        self.take.set_disabled(proposal.is_none());
        self.effects.0.set_hidden(proposal.is_none());
        self.words.show(&match (&wish, &proposal) {
            (None, _) => {
                "Type what it is to be: how far to go, and what else moves, is shown before anything is done.".into()
            }
            (Some(_), None) => {
                "This part does not move that reading, or not as far as the axle can be assembled.".into()
            }
            (Some(wish), Some(proposal)) => words(wish, proposal, &told(Some(proposal.set.left_over))),
        });
        if let Some(proposal) = proposal {
            let row = |(reading, both): &(&'static Reading, [Option<f64>; 2])| {
                let [before, after] = both.map(|value| app.told(reading, value).text(reading, units));
                vec![format!("{} {}", reading.name, units.behind(reading)), before, after]
            };
            let [before, after] = proposal.track.map(|mm| units.length(mm));
            let track = vec![format!("Track, {}", units.length_name()), before, after];
            self.effects.1.show(proposal.effects.iter().map(row).chain([track]).collect());
        }
    }
}

/// A list of which one is wanted.
fn chosen(page: &Page, id: &str, names: &[&str], wanted: &Rc<Wanted>, choose: fn(&Wanted, usize)) -> HtmlSelectElement {
    let wanted = wanted.clone();
    choice(page, id, names, move |page, at| {
        choose(&wanted, at);
        page.change();
    })
}

/// How far, in turns or shims if it has them, and what is left over.
fn words(wish: &Wish, proposal: &Proposal, left_over: &str) -> String {
    let amount = moved(&wish.by, proposal.set.by);
    let wheel = if wish.sides == Sides::Both { ", each wheel" } else { "" };
    format!("Change it by {amount}{wheel}; left over {left_over}.")
}
