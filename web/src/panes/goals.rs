//! Goals: which joints may move, what readings are to become, and the ways that a search finds. Brought up to date only while it is shown, and its boxes
//! are drawn only then.

mod aims;
mod boxed;
mod finding;
mod words;

use crate::app::{App, Edit, Open, Paper, Point, Say};
use crate::browser::dom::{Shown, find, make, on};
use crate::browser::page::{LaidOver, Page, Pane};
use crate::content::goal::prepared;
use crate::document::goal::{Aim, Freed, Goal, LengthKept, Preset, USUAL, Wanted, around};
use crate::panes::boxes::choice;
use crate::text::typed::Kind;
use crate::work::goals::{Question, length, members};
use aims::Aims;
use boxed::{Boxed, Line};
use finding::Finding;
use kernel::vary::Quantity;
use kernel::{LeftOrRight, Unit, clip};
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlElement, HtmlSelectElement};

/// The pane.
pub struct GoalsPane {
    whole: HtmlElement,
    units: [Shown; 2],
    free: Boxed,
    aims: Aims,
    lengths: Boxed,
    more: (HtmlSelectElement, RefCell<Vec<&'static str>>),
    finding: Finding,
}

/// Changes the goal: a step to undo.
fn change(page: &Page, change: impl FnOnce(&mut Goal)) {
    let mut goal = page.with(App::goal);
    change(&mut goal);
    page.send(Paper::Goal(Box::new(goal)));
}

/// Takes a row out.
fn without<T>(rows: &mut Vec<T>, at: usize) {
    if at < rows.len() {
        rows.remove(at);
    }
}

/// A number beyond this is a slip, whatever it is of.
const MOST: f64 = 1e6;

/// The number of a typed text, in the kernel's unit; what is none is said.
fn typed(page: &Page, kind: Kind, text: &str, label: &str) -> Option<f64> {
    let value = number(page, kind, text);
    if value.is_none() {
        page.send(Say::Sentence(format!("“{}” is not a number that can be used here ({label}).", clip(text))));
    }
    value
}

fn number(page: &Page, kind: Kind, text: &str) -> Option<f64> {
    let units = page.with(|app| app.document.units);
    kind.read(text, units).filter(|value| value.abs() <= MOST)
}

const LENGTH: Kind = Kind::of(Unit::Millimetre);

/// A kept length may at first be so much shorter or longer, mm.
const LENGTH_NEAR: f64 = 5.0;

/// A value that an aim begins with: what the reading is where the car stands, with the digits that are shown.
fn as_it_is(app: &App, quantity: Quantity) -> Aim {
    let (decimals, factor, _) = app.document.units.shown(quantity.reading());
    let digits = 10.0_f64.powi(decimals as i32);
    let now = app.stands(LeftOrRight::Left, quantity).unwrap_or_default();
    let value = (now * factor * digits).round() / digits / factor;
    let wanted = Wanted::Value([value, quantity.tolerance()]);
    Aim { reading: quantity.column().into(), travel: vec![app.document.ride()], rack: 0.0, wanted }
}

impl GoalsPane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> GoalsPane {
        presets(page);
        let names: Vec<String> = Quantity::all().map(|quantity| quantity.reading().full_name()).collect();
        let names: Vec<&str> = std::iter::once("a reading …").chain(names.iter().map(String::as_str)).collect();
        let list: HtmlSelectElement = find("goal-more");
        choice(page, "goal-more", &names, move |page, at| {
            list.set_selected_index(0);
            if let Some(quantity) = at.checked_sub(1).and_then(|at| Quantity::all().nth(at)) {
                let aim = page.with(|app| as_it_is(app, quantity));
                change(page, |goal| goal.aims.push(aim));
            }
        });
        let pinning = page.clone();
        on(&find::<Element>("goal-pinned"), "click", move |_: Event| {
            let aims: Vec<Aim> = pinning.with(|app| {
                let told = app.document.pinned.iter().filter(|column| !app.hides(column));
                told.filter_map(|column| Some(as_it_is(app, Quantity::named(column)?))).collect()
            });
            change(&pinning, |goal| goal.aims.extend(aims));
        });
        let lengths: HtmlSelectElement = find("goal-length");
        let list = lengths.clone();
        choice(page, "goal-length", &[], move |page, at| {
            list.set_selected_index(0);
            let kept = page.with(|app| {
                let layout = &app.document.layout;
                let member = *members(layout).get(at.checked_sub(1)?)?;
                let now = length(layout, member.path())?;
                Some(LengthKept { member: member.path().into(), range: [now - LENGTH_NEAR, now + LENGTH_NEAR] })
            });
            if let Some(kept) = kept {
                change(page, |goal| {
                    goal.lengths.retain(|other| other.member != kept.member);
                    goal.lengths.push(kept);
                });
            }
        });
        GoalsPane {
            whole: find("goals"),
            units: ["goal-unit", "goal-length-unit"].map(|id| Shown::text(find::<Element>(id))),
            free: Boxed::new(
                page,
                "goal-free",
                |goal, at| goal.free.get_mut(at).map(|freed| &mut freed.range),
                |goal, at| without(&mut goal.free, at),
            ),
            aims: Aims::new(page),
            lengths: Boxed::new(
                page,
                "goal-lengths",
                |goal, at| goal.lengths.get_mut(at).map(|kept| &mut kept.range),
                |goal, at| without(&mut goal.lengths, at),
            ),
            more: (lengths, RefCell::default()),
            finding: Finding::new(page),
        }
    }

    /// The list of members whose length can be kept.
    fn show_members(&self, app: &App) {
        let layout = &app.document.layout;
        let names: Vec<&str> = members(layout).into_iter().map(|member| member.name(layout)).collect();
        let (list, written) = &self.more;
        if *written.borrow() != names {
            list.set_inner_html("");
            for name in std::iter::once(&"a length …").chain(&names) {
                make::<Element>(list, "option").set_text_content(Some(name));
            }
            written.replace(names);
        }
    }
}

/// The buttons that free joints, each in one step; what is locked stays.
fn presets(page: &Page) {
    for (id, preset) in
        [("goal-outer", Preset::OuterJoints), ("goal-rack", Preset::Rack), ("goal-body", Preset::BodyJoints)]
    {
        let page = page.clone();
        on(&find::<Element>(id), "click", move |_: Event| {
            free(&page, |app| preset.freed(&app.document.layout));
        });
    }
    let hand = page.clone();
    on(&find::<Element>("goal-joint"), "click", move |_: Event| match hand.with(|app| app.selected) {
        Some(point) => free(&hand, |app| around(&app.document.layout, point, USUAL)),
        None => hand.send(Say::Sentence("No joint is selected: click one in the drawing first.".into())),
    });
    let none = page.clone();
    on(&find::<Element>("goal-none"), "click", move |_: Event| change(&none, |goal| goal.free.clear()));
    let page = page.clone();
    on(&find::<Element>("goal-try"), "click", move |_: Event| {
        if let Some(document) = prepared() {
            page.send(Open::Document(Box::new(document), Vec::new()));
            page.refit();
        }
    });
}

fn free(page: &Page, of: impl FnOnce(&App) -> Vec<Freed>) {
    let more = page.with(|app| {
        let mut more = of(app);
        more.retain(|freed| app.document.ranges(freed.point)[freed.axis].is_some());
        more
    });
    change(page, |goal| goal.free(more));
}

impl Pane for GoalsPane {
    fn show(&self, page: &Page, app: &App) {
        if self.whole.hidden() {
            return page.lay_over(LaidOver::default());
        }
        let (goal, units, layout) = (app.goal(), app.document.units, &app.document.layout);
        self.units.iter().for_each(|unit| unit.show(units.length_name()));
        let axes = ["x", "y", "z"];
        let freed = |freed: &Freed| Line {
            name: format!("{}, {}", freed.point.name(), axes.get(freed.axis).unwrap_or(&"?")),
            now: layout.point(freed.point).and_then(|point| point.get(freed.axis).copied()),
            range: freed.range,
        };
        self.free.show(units, &goal.free.iter().map(freed).collect::<Vec<_>>());
        self.aims.show(app, &goal.aims);
        let all = members(layout);
        let kept = |kept: &LengthKept| Line {
            name: all
                .iter()
                .find(|member| member.path() == kept.member)
                .map_or(kept.member.clone(), |member| member.name(layout).into()),
            now: length(layout, &kept.member),
            range: kept.range,
        };
        self.lengths.show(units, &goal.lengths.iter().map(kept).collect::<Vec<_>>());
        self.show_members(app);
        let now = Question::of(&app.document).ok();
        let offered = self.finding.show(app, now.as_ref());
        page.lay_over(LaidOver { boxes: true, offered: offered.map(Box::new) });
    }
}

/// Takes an answer: its joints move there, in one step.
fn take(page: &Page, question: &Question, found: &crate::work::goals::Found) {
    page.send(Edit::Point(Point::PlaceAll(question.places(found))));
}
