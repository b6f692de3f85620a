//! What to turn: what a wheel is to read where the car stands, and the answers by one adjuster and by two, each taken as one step.

use super::card::{Card, card, missed, nearest};
use crate::app::{App, Build, Edit, Say};
use crate::browser::dom::{Listener, Shown, document, find, make, on, set};
use crate::browser::page::Page;
use crate::panes::boxes::choice;
use crate::panes::followed::Followed;
use crate::panes::pressed::Pressed;
use crate::study::influence::{heading, told};
use crate::text::number::parse;
use crate::work::turn::Wanted;
use kernel::vary::{Aim, Answer, Quantity};
use kernel::{LeftOrRight, Sides, clip};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlButtonElement, HtmlInputElement};

/// What is wanted, and what would do it.
pub struct Turning {
    hand: Rc<Hand>,
    sides: Pressed<Sides>,
    aims: Element,
    rows: RefCell<Vec<Row>>,
    words: Shown,
    cards: Element,
    written: RefCell<Vec<Card>>,
    answers: Followed<Wanted, [Option<Answer>; 2]>,
}

/// What hands have chosen; kept in no document.
struct Hand {
    sides: Cell<Sides>,
    /// The readings that are asked for, each with what it is to be.
    wanted: RefCell<Vec<(Quantity, Option<f64>)>>,
    /// The answers shown.
    shown: RefCell<Vec<Answer>>,
}

/// A reading that is asked for: now, and the box for what it is to be.
struct Row {
    row: Element,
    name: Shown,
    now: Shown,
    input: HtmlInputElement,
    keep: HtmlButtonElement,
    _listeners: [Listener; 2],
}

const SIDES: [(Sides, &str); 3] = [
    (Sides::Both, "turn-both"),
    (Sides::One(LeftOrRight::Left), "turn-left"),
    (Sides::One(LeftOrRight::Right), "turn-right"),
];

/// What is asked for unless somebody wants more.
const FIRST: [&str; 3] = ["toe_deg", "camber_deg", "caster_sweep_deg"];

/// Amounts that round to nothing, mm or degrees.
const NOTHING: f64 = 5e-3;

impl Hand {
    fn wheel(&self) -> LeftOrRight {
        if let Sides::One(side) = self.sides.get() { side } else { LeftOrRight::Left }
    }

    fn aims(&self, app: &App) -> Vec<Aim> {
        let wanted = self.wanted.borrow();
        let told = wanted.iter().filter(|(quantity, _)| !app.hides(quantity.column()));
        told.filter_map(|(quantity, wanted)| Some(Aim { quantity: *quantity, wanted: (*wanted)? })).collect()
    }

    fn set(&self, at: usize, wanted: Option<f64>) {
        if let Some((_, value)) = self.wanted.borrow_mut().get_mut(at) {
            *value = wanted;
        }
    }
}

impl Row {
    fn new(page: &Page, place: &Element, hand: &Rc<Hand>, at: usize) -> Row {
        let row: Element = make(place, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let now = Shown::text(make::<Element>(&row, "td"));
        let input: HtmlInputElement = make(&make::<Element>(&row, "td"), "input");
        for (name, value) in [("class", "box"), ("inputmode", "decimal"), ("autocomplete", "off")] {
            set(&input, name, value);
        }
        let keep: HtmlButtonElement = make(&make::<Element>(&row, "td"), "button");
        keep.set_text_content(Some("keep"));
        set(&keep, "title", "It is to stay as it is now");
        let (typing, typed, of) = (page.clone(), input.clone(), hand.clone());
        let change = Listener::new(&input, "change", move |_: Event| {
            let text = typed.value();
            let factor = typing.with(|app| Some(heading_of(&of, at, app)?.2)).unwrap_or(1.0);
            match (text.trim(), parse(&text)) {
                ("", _) => of.set(at, None),
                (_, Some(value)) => of.set(at, Some(value / factor)),
                _ => typing.send(Say::Sentence(format!("“{}” is not a number.", clip(&text)))),
            }
            typing.change();
        });
        let (keeping, of) = (page.clone(), hand.clone());
        let click = Listener::new(&keep, "click", move |_: Event| {
            let quantity = of.wanted.borrow().get(at).map(|(quantity, _)| *quantity);
            of.set(at, quantity.and_then(|quantity| keeping.with(|app| app.stands(of.wheel(), quantity))));
            keeping.change();
        });
        Row { row, name: Shown::text(heading), now, input, keep, _listeners: [change, click] }
    }

    fn show(&self, app: &App, wheel: LeftOrRight, (quantity, wanted): (Quantity, Option<f64>)) {
        let units = app.document.units;
        let (name, unit, _) = heading(quantity, units);
        let (hidden, now) = (app.hides(quantity.column()), app.stands(wheel, quantity));
        self.name.show(&name);
        let text = |value: Option<f64>| value.map_or("–".into(), |value| told(quantity, units, value));
        self.now.show(&if hidden { "hidden".into() } else { text(now) });
        self.input.set_disabled(hidden || now.is_none());
        self.keep.set_disabled(hidden || now.is_none());
        set(&self.input, "aria-label", &format!("{name} wanted, {unit}"));
        set(&self.keep, "aria-label", &format!("keep {name}"));
        if document().active_element().as_ref() != Some(self.input.as_ref()) {
            self.input.set_value(&wanted.map_or(String::new(), |value| told(quantity, units, value)));
        }
    }
}

impl Drop for Row {
    fn drop(&mut self) {
        self.row.remove();
    }
}

/// How the reading of a row is shown.
fn heading_of(hand: &Hand, at: usize, app: &App) -> Option<(String, &'static str, f64)> {
    hand.wanted.borrow().get(at).map(|(quantity, _)| heading(*quantity, app.document.units))
}

impl Turning {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Turning {
        let first = FIRST.iter().filter_map(|column| Some((Quantity::named(column)?, None))).collect();
        let hand =
            Rc::new(Hand { sides: Cell::new(Sides::Both), wanted: RefCell::new(first), shown: RefCell::default() });
        let chosen = hand.clone();
        let sides = Pressed::new(page, &SIDES, move |page, sides| {
            chosen.sides.set(sides);
            page.change();
        });
        let names: Vec<String> = Quantity::all().map(|quantity| heading(quantity, Default::default()).0).collect();
        let names: Vec<&str> = std::iter::once("Choose …").chain(names.iter().map(String::as_str)).collect();
        let more = hand.clone();
        let list = find::<web_sys::HtmlSelectElement>("aim-more");
        choice(page, "aim-more", &names, move |page, at| {
            list.set_selected_index(0);
            let Some(quantity) = at.checked_sub(1).and_then(|at| Quantity::all().nth(at)) else { return };
            let mut wanted = more.wanted.borrow_mut();
            if wanted.iter().all(|(known, _)| known.column() != quantity.column()) {
                wanted.push((quantity, None));
            }
            page.change();
        });
        let (clearing, cleared) = (page.clone(), hand.clone());
        on(&find::<Element>("aims-clear"), "click", move |_: Event| {
            cleared.wanted.borrow_mut().iter_mut().for_each(|(_, wanted)| *wanted = None);
            clearing.change();
        });
        let (cards, taking, taken) = (find::<Element>("answers"), page.clone(), hand.clone());
        on(&cards, "click", move |event: Event| {
            let button = event.target().and_then(|target| target.dyn_into::<Element>().ok());
            let at = button.and_then(|button| button.get_attribute("data-answer")?.parse::<usize>().ok());
            let changes = at.and_then(|at| taken.shown.borrow().get(at).map(|answer| answer.changes.clone()));
            if let Some(mut changes) = changes {
                // What was offered because the car had none is not fitted to it.
                changes.adjusters = taking.with(|app| app.document.layout.changes.adjusters.clone());
                taking.send(Edit::Build(Build::All(Box::new(changes))));
            }
        });
        Turning {
            hand,
            sides,
            aims: find("aims"),
            rows: RefCell::default(),
            words: Shown::text(find::<Element>("turn-words")),
            cards,
            written: RefCell::default(),
            answers: Followed::new(Wanted::task, Wanted::answers),
        }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        self.sides.show(self.hand.sides.get());
        let wanted = self.hand.wanted.borrow().clone();
        let mut rows = self.rows.borrow_mut();
        while rows.len() < wanted.len() {
            let row = Row::new(page, &self.aims, &self.hand, rows.len());
            rows.push(row);
        }
        for (row, wanted) in rows.iter().zip(&wanted) {
            row.show(app, self.hand.wheel(), *wanted);
        }
        let asked = Wanted::of(&app.document.layout, self.hand.sides.get(), self.hand.aims(app));
        let Some(asked) = asked else {
            self.answers.forget();
            self.words.show("Type what a reading is to be; what may become of the others is left blank.");
            self.hand.shown.borrow_mut().clear();
            return self.write(Vec::new());
        };
        match self.answers.ask(page, app.held(), &asked) {
            Some((answers, true)) => self.answer(app, &asked, &answers),
            _ => self.words.show("Looking …"),
        }
    }

    fn answer(&self, app: &App, asked: &Wanted, answers: &[Option<Answer>; 2]) {
        let [one, two] = answers;
        let still = one.as_ref().is_some_and(|one| one.moves.iter().all(|step| step.by.abs() < NOTHING));
        let met = |answer: &Option<Answer>| answer.as_ref().is_some_and(|answer| missed(asked, answer).is_empty());
        self.words.show(&match (one, two) {
            (None, _) => "None of these adjusters moves what is wanted.".into(),
            (Some(_), None) if still && met(one) => "Nothing has to be turned: the readings are as wanted.".into(),
            (Some(_), None) if met(one) => "One adjuster is enough.".into(),
            (Some(best), None) => format!("{} A second adjuster would bring it no nearer.", nearest(asked, best)),
            (Some(_), Some(best)) if !met(two) => nearest(asked, best),
            (Some(_), Some(_)) => "One adjuster comes near; two do it.".into(),
        });
        let headed = ["With one adjuster", "With two adjusters"].into_iter().zip(answers);
        let cards = headed
            .filter_map(|(heading, answer)| Some((heading, answer.as_ref().filter(|_| !still || two.is_some())?)));
        let (cards, shown) = cards.map(|(heading, answer)| (card(app, asked, heading, answer), answer.clone())).unzip();
        self.hand.shown.replace(shown);
        self.write(cards);
    }

    fn write(&self, cards: Vec<Card>) {
        if *self.written.borrow() == cards {
            return;
        }
        self.cards.set_text_content(None);
        for (at, Card { heading, lines }) in cards.iter().enumerate() {
            let card: Element = make(&self.cards, "section");
            make::<Element>(&card, "h3").set_text_content(Some(heading));
            for (class, line) in lines {
                let line_of: Element = make(&card, "p");
                set(&line_of, "class", class);
                line_of.set_text_content(Some(line));
            }
            let button: Element = make(&card, "button");
            button.set_text_content(Some("Take it"));
            set(&button, "data-answer", &at.to_string());
            set(&button, "aria-label", &format!("Take it: {}", heading.to_lowercase()));
        }
        self.written.replace(cards);
    }
}
