//! What has to be kept at places, a row each: how far a joint may swing, how near pieces may come to each other.

use super::boxed::Leaves;
use super::typing::{short, travel_box};
use super::{LENGTH, change, typed, without};
use crate::app::App;
use crate::browser::dom::{Listener, Shown, find, make, set};
use crate::browser::page::Page;
use crate::document::goal::{Condition, Kept};
use crate::panes::typed_box::TypedBox;
use crate::study::condition::name;
use crate::text::number::{Units, plain};
use crate::text::sentence::capital;
use crate::text::typed::Kind;
use kernel::Unit;
use std::cell::RefCell;
use web_sys::{Element, Event};

/// The rows.
pub(super) struct Kepts {
    page: Page,
    list: Element,
    rows: RefCell<Vec<Row>>,
}

struct Row {
    name: Shown,
    now: Shown,
    limit: (TypedBox, Shown),
    said: Shown,
    unit: Shown,
    travel: TypedBox,
    rack: TypedBox,
    away: Shown,
    _remove: Listener,
    /// Behind all that listens.
    _row: Leaves,
}

const ANGLE: Kind = Kind::of(Unit::Degree);

/// What is typed of a limit.
fn kind(kept: &Kept) -> Kind {
    if matches!(kept, Kept::Swing(_)) { ANGLE } else { LENGTH }
}

/// A value of a condition with its unit.
pub(super) fn told(units: Units, kept: &Kept, value: f64) -> String {
    match kept {
        Kept::Swing(_) => units.angle(value, 1),
        _ => format!("{} {}", units.length(value), units.length_name()),
    }
}

/// Changes the condition of a row.
fn change_condition(page: &Page, at: usize, with: impl FnOnce(&mut Condition)) {
    change(page, |goal| {
        if let Some(one) = goal.conditions.get_mut(at) {
            with(one);
        }
    });
}

impl Kepts {
    /// Finds them on the page.
    pub fn new(page: &Page) -> Kepts {
        Kepts { page: page.clone(), list: find("goal-kept"), rows: RefCell::default() }
    }

    /// Shows them.
    pub fn show(&self, app: &App, conditions: &[Condition]) {
        let mut rows = self.rows.borrow_mut();
        rows.truncate(conditions.len());
        while rows.len() < conditions.len() {
            let row = Row::new(&self.page, &self.list, rows.len());
            rows.push(row);
        }
        for ((row, one), now) in rows.iter().zip(conditions).zip(app.kept()) {
            row.show(app, one, now.as_deref());
        }
    }
}

impl Row {
    fn new(page: &Page, list: &Element, at: usize) -> Row {
        let row: Element = make(list, "li");
        let heading: Element = make(&row, "b");
        let name_of = Shown::text(make::<Element>(&heading, "span"));
        let now: Element = make(&heading, "span");
        set(&now, "class", "now");
        let said = Shown::text(make::<Element>(&row, "span"));
        let limit = TypedBox::new(page, &row, "limit", move |page, text| {
            let Some(one) = page.with(|app| app.goal().conditions.get(at).cloned()) else { return };
            let label = page.with(|app| name(&one.kept, &app.document.layout));
            if let Some(value) = typed(page, kind(&one.kept), text, &label) {
                change_condition(page, at, |one| one.limit = value);
            }
        });
        let unit = Shown::text(make::<Element>(&row, "span"));
        let labelled = |text: &str| {
            let label: Element = make(&row, "label");
            make::<Element>(&label, "span").set_text_content(Some(text));
            label
        };
        let travel = travel_box(page, &labelled("at travel"), move |page, travels| {
            change_condition(page, at, |one| one.travel = travels);
        });
        let rack = TypedBox::new(page, &labelled("rack"), "rack", move |page, text| {
            if let Some(mm) = typed(page, LENGTH, text, "rack") {
                change_condition(page, at, |one| one.rack = mm);
            }
        });
        let button: Element = make(&row, "button");
        button.set_text_content(Some("×"));
        let clicked = page.clone();
        let _remove =
            Listener::new(&button, "click", move |_: Event| change(&clicked, |goal| without(&mut goal.conditions, at)));
        let label = Shown::attribute(limit.input.clone(), "aria-label");
        Row {
            name: name_of,
            now: Shown::text(now),
            limit: (limit, label),
            said,
            unit,
            travel,
            rack,
            away: Shown::attribute(button, "aria-label"),
            _remove,
            _row: Leaves(row),
        }
    }

    fn show(&self, app: &App, one: &Condition, now: Option<&[f64]>) {
        let units = app.document.units;
        let name = name(&one.kept, &app.document.layout);
        self.name.show(&capital(&name));
        let swing = matches!(one.kept, Kept::Swing(_));
        // The worst of its places.
        let worst = now.and_then(|values| values.iter().copied().reduce(if swing { f64::max } else { f64::min }));
        let hidden = !swing && app.hides_gaps();
        let now = match worst {
            _ if hidden => "hidden".into(),
            Some(mm) if !swing && mm <= 0.0 => "they meet".into(),
            Some(worst) => told(units, &one.kept, worst),
            None => "–".into(),
        };
        self.now.show(&format!(" now {now}"));
        self.said.show(if swing { "at most" } else { "at least" });
        self.limit.0.show(&match one.kept {
            Kept::Swing(_) => plain(if units.minutes { 60.0 * one.limit } else { one.limit }),
            _ => short(units, one.limit),
        });
        self.limit.1.show(&format!("{name}, {}", if swing { "at most" } else { "at least" }));
        self.unit.show(kind(&one.kept).name(units));
        self.travel.show(&one.travel.iter().map(|mm| short(units, *mm)).collect::<Vec<_>>().join(" "));
        self.rack.show(&short(units, one.rack));
        self.away.show(&format!("remove {name}"));
    }
}
