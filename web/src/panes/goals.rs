//! Goals: which joints may move, what readings are to become, and the ways that a search finds. Brought up to date only while it is shown, and its boxes
//! are drawn only then.

mod aims;
mod boxed;
mod finding;
mod kept;
mod line;
mod lists;
mod typing;
mod words;

use crate::app::{App, Edit, Hand, Open, Paper, Point, Say};
use crate::browser::dom::{Shown, find, on};
use crate::browser::page::{LaidOver, Page, Pane};
use crate::content::goal::prepared;
use crate::document::goal::{Aim, Freed, Goal, LengthKept, Preset, USUAL, Wanted, around};
use crate::panes::boxes::{Fold, choice};
use crate::text::typed::Kind;
use crate::work::goals::{Question, length, members};
use aims::Aims;
use boxed::{Boxed, Line};
use finding::Finding;
use kept::Kepts;
use kernel::vary::Quantity;
use kernel::{Unit, clip};
use lists::Lists;
use web_sys::{Element, Event, HtmlElement, HtmlSelectElement};

/// The pane.
pub struct GoalsPane {
    whole: HtmlElement,
    units: [Shown; 2],
    free: Boxed,
    aims: Aims,
    lengths: Boxed,
    kept: Kepts,
    /// What has to be kept is worked out only while its list is open.
    conditions: Fold,
    lists: Lists,
    side: (HtmlElement, HtmlSelectElement),
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

/// A value that an aim begins with: what the reading is where the car stands, with the digits that are shown.
fn as_it_is(app: &App, quantity: Quantity) -> Aim {
    let (decimals, factor, _) = app.document.units.shown(quantity.reading());
    let digits = 10.0_f64.powi(decimals as i32);
    let now = app.stands(app.goal().side(), quantity).unwrap_or_default();
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
        let side: HtmlSelectElement = find("goal-side");
        let (asked, choosing) = (page.clone(), side.clone());
        on(&side, "change", move |_: Event| {
            let right = choosing.selected_index() == 1;
            change(&asked, |goal| goal.right = right);
        });
        GoalsPane {
            whole: find("goals"),
            units: ["goal-unit", "goal-length-unit"].map(|id| Shown::text(find::<Element>(id))),
            free: Boxed::new(
                page,
                "goal-free",
                |goal, at| goal.free.get_mut(at).map(|freed| &mut freed.range),
                |goal, at| without(&mut goal.free, at),
            )
            .choosing(|page, at| {
                let point = page.with(|app| app.goal().free.get(at).map(|freed| freed.point));
                page.send(Hand::Select(point));
            }),
            aims: Aims::new(page),
            lengths: Boxed::new(
                page,
                "goal-lengths",
                |goal, at| goal.lengths.get_mut(at).map(|kept| &mut kept.range),
                |goal, at| without(&mut goal.lengths, at),
            ),
            kept: Kepts::new(page),
            conditions: Fold::around(page, "goal-kept"),
            lists: Lists::new(page),
            side: (find("goal-left"), side),
            finding: Finding::new(page),
        }
    }

    /// Which wheel is asked about: only where it matters, or has been said.
    fn show_side(&self, app: &App, goal: &Goal) {
        let either = goal.right || app.study.good.axle.sides_differ();
        self.side.0.set_hidden(either);
        self.side.1.set_hidden(!either);
        self.side.1.set_selected_index(i32::from(goal.right));
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
        let freed = |freed: &Freed| Line {
            name: format!("{}, {}", freed.point.name(), freed.axis_name()),
            chosen: app.selected == Some(freed.point),
            now: layout.point(freed.point).and_then(|point| point.get(freed.axis).copied()),
            range: freed.range,
        };
        self.free.show(units, &goal.free.iter().map(freed).collect::<Vec<_>>());
        let now = Question::of(&app.document).ok();
        let [offered, answer] = self.finding.show(app, now.as_ref());
        self.aims.show(app, &goal.aims, answer.as_ref());
        let all = members(layout);
        let kept = |kept: &LengthKept| Line {
            name: all
                .iter()
                .find(|member| member.path() == kept.member)
                .map_or(kept.member.clone(), |member| member.name(layout).into()),
            chosen: false,
            now: length(layout, goal.side(), &kept.member),
            range: kept.range,
        };
        self.lengths.show(units, &goal.lengths.iter().map(kept).collect::<Vec<_>>());
        if self.conditions.is_open() {
            self.kept.show(app, &goal.conditions);
            self.lists.show(app);
        }
        self.show_side(app, &goal);
        page.lay_over(LaidOver { boxes: true, offered: offered.map(Box::new) });
    }
}

/// Takes an answer: its joints move there, in one step.
fn take(page: &Page, question: &Question, found: &crate::work::goals::Found) {
    page.send(Edit::Point(Point::PlaceAll(question.places(found))));
}
