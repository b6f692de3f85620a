//! Lists of what an axle can be made to keep: lengths, swings of joints, gaps. What is chosen is added to the goal.

use super::change;
use crate::app::App;
use crate::browser::dom::{find, make};
use crate::browser::page::Page;
use crate::document::goal::{Condition, Kept, LengthKept};
use crate::panes::boxes::choice;
use crate::study::space::pair;
use crate::work::goals::{length, members};
use kernel::PointId;
use std::cell::RefCell;
use web_sys::{Element, HtmlSelectElement};

/// A kept length may at first be so much shorter or longer, mm.
const LENGTH_NEAR: f64 = 5.0;

/// The three.
pub(super) struct Lists([Listed; 3]);

impl Lists {
    /// Finds them on the page.
    pub fn new(page: &Page) -> Lists {
        Lists([
            Listed::new(page, "goal-length", "a length …", keep_length),
            Listed::new(page, "goal-swing", "a joint’s swing …", keep_swing),
            Listed::new(page, "goal-gap", "a gap …", keep_gap),
        ])
    }

    /// Shows them.
    pub fn show(&self, app: &App) {
        let layout = &app.document.layout;
        let [lengths, swings, gaps] = &self.0;
        lengths.show(members(layout).into_iter().map(|member| member.name(layout).to_string()).collect());
        swings.show(joints(app).into_iter().map(|joint| joint.name().to_string()).collect());
        let pairs = app.gaps_to_keep().iter().map(|between| pair(*between, layout));
        gaps.show(std::iter::once("the smallest of all".to_string()).chain(pairs).collect());
    }
}

/// A list whose entries are written when they are others.
struct Listed {
    list: HtmlSelectElement,
    first: &'static str,
    written: RefCell<Vec<String>>,
}

impl Listed {
    /// What is chosen of it, counted from 0 behind its first entry, is taken, and the list stands at that again.
    fn new(page: &Page, id: &str, first: &'static str, take: impl Fn(&Page, usize) + 'static) -> Listed {
        let list: HtmlSelectElement = find(id);
        let back = list.clone();
        choice(page, id, &[], move |page, at| {
            back.set_selected_index(0);
            if let Some(at) = at.checked_sub(1) {
                take(page, at);
            }
        });
        Listed { list, first, written: RefCell::default() }
    }

    fn show(&self, names: Vec<String>) {
        // Also the first time, when there may be none.
        if *self.written.borrow() != names || self.list.length() == 0 {
            self.list.set_inner_html("");
            for name in std::iter::once(self.first).chain(names.iter().map(String::as_str)) {
                make::<Element>(&self.list, "option").set_text_content(Some(name));
            }
            self.written.replace(names);
        }
    }
}

/// The joints whose swing is known: those of arms and track rod.
fn joints(app: &App) -> Vec<PointId> {
    let all = app.document.layout.points().map(|(id, _)| id);
    all.filter(|id| id.is_joint() && *id != PointId::StrutTop).collect()
}

fn keep_length(page: &Page, at: usize) {
    let kept = page.with(|app| {
        let layout = &app.document.layout;
        let member = *members(layout).get(at)?;
        let now = length(layout, app.goal().side(), member.path())?;
        Some(LengthKept { member: member.path().into(), range: [now - LENGTH_NEAR, now + LENGTH_NEAR] })
    });
    if let Some(kept) = kept {
        change(page, |goal| {
            goal.lengths.retain(|other| other.member != kept.member);
            goal.lengths.push(kept);
        });
    }
}

/// A ball joint swings so far at first, degrees: an order of size (an invention); the maker of a joint says how far it may.
const SWING: f64 = 25.0;

/// A gap is so large at first, mm (an invention).
const GAP: f64 = 8.0;

fn keep_swing(page: &Page, at: usize) {
    if let Some(joint) = page.with(|app| joints(app).get(at).copied()) {
        keep(page, Kept::Swing(joint), SWING);
    }
}

/// The first is the smallest of all gaps, the others those of the pairs.
fn keep_gap(page: &Page, at: usize) {
    let kept = page.with(|app| match at.checked_sub(1) {
        None => Some(Kept::LeastGap),
        Some(at) => Some(Kept::Gap(app.gaps_to_keep().get(at)?.map(|piece| piece.name(&app.document.layout)))),
    });
    if let Some(kept) = kept {
        keep(page, kept, GAP);
    }
}

/// Keeps something over the travel that curves show, rack straight ahead.
fn keep(page: &Page, kept: Kept, limit: f64) {
    let reach = page.with(|app| app.reach_of(false));
    let condition = Condition { kept, travel: vec![-reach, 0.0, reach], rack: 0.0, limit };
    change(page, |goal| goal.conditions.push(condition));
}
