//! Bushes that resist turning, where each was tightened, and what that does.

use super::name;
use crate::app::{App, Say, Soften};
use crate::browser::dom::{Shown, find, make, set};
use crate::browser::page::Page;
use crate::panes::number_box::NumberBox;
use crate::panes::rows::Rows;
use crate::study::twisted::Bushes;
use crate::text::number::{fixed, plain, signed};
use kernel::{Amount, Anchor, Twisted};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use web_sys::{Element, HtmlElement};

/// The section.
pub struct Tightened {
    none: HtmlElement,
    whole: HtmlElement,
    body: Element,
    rows: RefCell<Vec<Row>>,
    /// The twist that a bush is allowed, degrees: the hand's choice, kept in no document.
    allowed: (Rc<Cell<f64>>, NumberBox),
    words: Shown,
    twists: Rows,
}

struct Row {
    anchor: Anchor,
    at: NumberBox,
    cells: [Shown; 3],
}

/// Rubber bushes bear about so much, degrees (common practice, no source).
const ALLOWED: f64 = 15.0;

/// More is no bush, degrees.
const MOST: f64 = 180.0;

impl Row {
    fn new(page: &Page, body: &Element, anchor: Anchor) -> Row {
        let row: Element = make(body, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        heading.set_text_content(Some(name(anchor)));
        let label = format!("{}, tightened at travel, mm", name(anchor));
        let at = NumberBox::blank(page, &make(&row, "td"), &label, move |page, travel| {
            if let Some(member) = anchor.member() {
                page.send(Soften::Tightened(member, travel));
            }
        });
        Row { anchor, at, cells: [(); 3].map(|()| Shown::text(make::<Element>(&row, "td"))) }
    }
}

/// A number, or a dash where there is none.
fn told(value: Option<f64>, text: impl Fn(f64) -> String) -> String {
    value.map_or("–".into(), text)
}

impl Tightened {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Tightened {
        let allowed = Rc::new(Cell::new(ALLOWED));
        let taken = allowed.clone();
        let number = NumberBox::named(page, &find("allowed"), "allowed twist, °", move |page, twist| {
            if (0.0..=MOST).contains(&twist) {
                taken.set(twist);
                page.change();
            } else {
                let twist = Amount(twist);
                page.send(Say::Sentence(format!(
                    "A twist of {twist}° can’t be allowed; it must be between 0 and {MOST}°."
                )));
            }
        });
        Tightened {
            none: find("no-torsion"),
            whole: find("tightened"),
            body: find("tightened-rows"),
            rows: RefCell::default(),
            allowed: (allowed, number),
            words: Shown::text(find::<Element>("twist-words")),
            twists: Rows::new("twists"),
        }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let twisted = app.twisted();
        self.none.set_hidden(twisted.is_some());
        self.whole.set_hidden(twisted.is_none());
        let Some(twisted) = twisted else { return };
        let mut rows = self.rows.borrow_mut();
        if !rows.iter().map(|row| row.anchor).eq(twisted.all.iter().map(|bush| bush.anchor)) {
            rows.clear();
            self.body.set_text_content(None);
            *rows = twisted.all.iter().map(|bush| Row::new(page, &self.body, bush.anchor)).collect();
        }
        let tightened = &app.document.layout.changes.tightened;
        for (row, bush) in rows.iter().zip(&twisted.all) {
            let own = row.anchor.member().and_then(|member| tightened.get(&member));
            row.at.show(&own.map_or(String::new(), |travel| plain(*travel)));
            let part = |part: fn(&Twisted) -> f64| bush.stands.as_ref().map(part);
            row.cells[0].show(&told(part(|t| t.twist), |twist| signed(twist, 1) + "°"));
            row.cells[1].show(&told(part(|t| t.torque), |torque| signed(torque, 1)));
            row.cells[2].show(&told(part(|t| t.force), |force| signed(force, 0)));
        }
        self.allowed.1.show(&plain(self.allowed.0.get()));
        self.words.show(&self.words(twisted));
        self.twists(twisted);
    }

    /// What the bushes do together, and which are twisted too far.
    fn words(&self, twisted: &Bushes) -> String {
        let allowed = self.allowed.0.get();
        let (force, stiffens) = twisted.adds.unzip();
        let mut said = vec![match twisted.settles {
            Some(by) if by.abs() < 0.05 => "The car stands where it does without these bushes.".into(),
            Some(by) => {
                let way = if by < 0.0 { "higher" } else { "lower" };
                format!(
                    "At its old height the bushes add {} N at each wheel: the car stands {} mm {way}.",
                    told(force, |force| signed(force, 0)),
                    fixed(by.abs(), 1)
                )
            }
            None => "With these bushes the car has no equilibrium height that is known.".into(),
        }];
        if let (Some(rate), Some(stiffens)) = (twisted.rate, stiffens) {
            said.push(format!(
                "Wheel rate {} N/mm, of which the bushes give {}.",
                fixed(rate + stiffens, 1),
                fixed(stiffens, 1)
            ));
        }
        let beyond: Vec<&str> = twisted
            .all
            .iter()
            .filter(|bush| bush.most().is_some_and(|most| most > allowed))
            .map(|bush| name(bush.anchor))
            .collect();
        said.push(match beyond[..] {
            [] => format!("None is twisted by more than {}° over this travel.", plain(allowed)),
            _ => format!("Twisted by more than {}° over this travel: {}.", plain(allowed), beyond.join(", ")),
        });
        said.join(" ")
    }

    fn twists(&self, twisted: &Bushes) {
        let allowed = self.allowed.0.get();
        let head = std::iter::once("Twist at travel, mm".to_string())
            .chain(twisted.travels.iter().map(|travel| signed(*travel, 0)));
        let twist = |twist: &Option<f64>| {
            let over = twist.is_some_and(|twist| twist.abs() > allowed);
            format!("{}{}", if over { "!" } else { "" }, told(*twist, |twist| signed(twist, 1) + "°"))
        };
        let row = |bush: &crate::study::twisted::Bush| {
            std::iter::once(name(bush.anchor).to_string()).chain(bush.along.iter().map(twist)).collect()
        };
        self.twists.show(std::iter::once(head.collect()).chain(twisted.all.iter().map(row)).collect());
    }
}
