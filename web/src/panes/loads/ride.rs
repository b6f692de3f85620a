//! The spring and the height it gives, a spring to try, rocker, anti-roll bar and stops.

use crate::app::{App, Part, Riding, Say};
use crate::browser::dom::{Shown, find};
use crate::browser::page::Page;
use crate::panes::boxes::{Boxes, Fold, part};
use crate::panes::number_box::NumberBox;
use crate::text::number::{fixed, signed};
use kernel::field::{BAR, Field, STOPS};
use kernel::{Amount, AntiRollBar, LIMIT, SpringOn, Springing, Stops};
use std::cell::Cell;
use std::rc::Rc;
use web_sys::{Element, HtmlElement, HtmlInputElement};

/// A bar's diameter is asked for, which then is that of a solid one.
fn diameter() -> impl Iterator<Item = &'static Field<AntiRollBar>> {
    BAR.iter().filter(|field| field.key == "diameter")
}

/// A bar of the diameter typed: its stiffness is no longer a number of its own.
fn solid(bar: AntiRollBar) -> Part {
    Part::Bar(Some(AntiRollBar { stiffness: None, ..bar }))
}

/// What carries the car.
pub struct Ride {
    fold: Fold,
    words: Shown,
    settles: Shown,
    other: Rc<Cell<Option<Springing>>>,
    boxes: [NumberBox; 2],
    rocker: HtmlInputElement,
    bar: (HtmlInputElement, HtmlElement, Boxes<AntiRollBar>),
    stops: (HtmlInputElement, HtmlElement, Boxes<Stops>),
}

impl Ride {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Ride {
        let other: Rc<Cell<Option<Springing>>> = Rc::default();
        Ride {
            fold: Fold::around(page, "ride-words"),
            words: Shown::text(find::<Element>("ride-words")),
            settles: Shown::text(find::<Element>("settles")),
            boxes: other_spring(page, &other),
            other,
            rocker: part(page, "has-rocker", |layout, has| {
                let spring = &layout.spring;
                let rocked = || spring.rocked().unwrap_or(spring.clone());
                Part::Spring(Box::new(if has { rocked() } else { spring.unrocked() }))
            }),
            bar: (
                part(page, "has-bar", |layout, has| Part::Bar(has.then(|| AntiRollBar::usual(layout)))),
                find("bar-size"),
                Boxes::new(page, "bar-size", diameter(), |document| document.layout.anti_roll_bar, solid),
            ),
            stops: (
                part(page, "has-stops", |_, has| Part::Stops(has.then(Stops::default))),
                find("stops"),
                Boxes::new(page, "stops", &STOPS, |document| document.layout.stops, |stops| Part::Stops(Some(stops))),
            ),
        }
    }

    /// Shows it.
    pub fn show(&self, app: &App) {
        self.spring(app);
        let layout = &app.document.layout;
        self.rocker.set_checked(layout.spring.rocker.is_some());
        self.rocker.set_disabled(layout.spring.on == SpringOn::Strut);
        self.bar.0.set_checked(layout.anti_roll_bar.is_some());
        self.bar.1.set_hidden(layout.anti_roll_bar.is_none());
        self.bar.2.show(layout.anti_roll_bar.as_ref());
        self.stops.0.set_checked(layout.stops.is_some());
        self.stops.1.set_hidden(layout.stops.is_none());
        self.stops.2.show(layout.stops.as_ref());
    }

    fn spring(&self, app: &App) {
        if !self.fold.is_open() {
            return;
        }
        let good = &app.study.good;
        let Ride { words, settles, boxes, other, .. } = self;
        let Some(Riding { spring, rate, frequency, settled }) = app.riding() else {
            let why = good.layout().vehicle().trouble();
            settles.show("");
            return words.show(&why.map_or("The spring does not carry this axle.".into(), |why| why.to_string()));
        };
        let told = |value: Option<f64>, digits| value.map_or("–".into(), |value| fixed(value, digits));
        words.show(&format!(
            "Spring force at rest {} N, free length {} mm. Wheel rate here {} N/mm, {} Hz.{}",
            fixed(spring.preload, 0),
            fixed(spring.free_length, 1),
            told(rate, 1),
            told(frequency, 2),
            settled.map_or(String::new(), |travel| format!(
                " With this load on both wheels the axle settles at travel {} mm.",
                signed(travel, 1)
            ))
        ));
        let changed = other.get().unwrap_or(spring);
        boxes[0].show(&fixed(changed.rate, 1));
        boxes[1].show(&fixed(changed.free_length, 1));
        settles.show(&match app.settles_on(changed) {
            Some(travel) if (travel - good.rest.travel).abs() < 0.05 => String::new(),
            Some(travel) => format!(
                "With this spring the axle settles at travel {} mm: the car sits {}.",
                signed(travel, 1),
                if travel > good.rest.travel { "lower" } else { "higher" }
            ),
            None => "With this spring the car has no equilibrium height.".into(),
        });
    }
}

/// Boxes for a spring to try: its rate and its free length. Nothing of it is kept in the document.
fn other_spring(page: &Page, other: &Rc<Cell<Option<Springing>>>) -> [NumberBox; 2] {
    let place: Element = find("other-spring");
    let number = |name: &'static str, write: fn(&mut Springing, f64)| {
        let other = other.clone();
        NumberBox::named(page, &place, name, move |page, value| {
            if !(0.1..=LIMIT).contains(&value) {
                let value = Amount(value);
                return page.send(Say::Sentence(format!("For {name}, {value} is not between 0.1 and {LIMIT}.")));
            }
            if let Some(mut spring) = other.get().or_else(|| page.with(|app| app.riding().map(|riding| riding.spring)))
            {
                write(&mut spring, value);
                other.set(Some(spring));
                page.change();
            }
        })
    };
    [
        number("spring rate to try, N/mm", |spring, rate| spring.rate = rate),
        number("free length to try, mm", |spring, length| spring.free_length = length),
    ]
}
