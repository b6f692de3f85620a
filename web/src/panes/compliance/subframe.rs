//! The subframe: its mounts, what it carries, and what the rack is bolted to.

use super::name;
use crate::app::{About, App, Show, Soften};
use crate::browser::dom::{Listener, find, make, on, set};
use crate::browser::page::Page;
use crate::content::racks::STEER;
use crate::panes::number_box::NumberBox;
use crate::panes::pressed::Pressed;
use crate::text::number::plain;
use kernel::{Anchor, Mount, Subframe, SubframeMount, Vec3};
use std::cell::RefCell;
use web_sys::{Element, Event, HtmlElement, HtmlInputElement};

/// The section.
pub struct Frame {
    tick: HtmlInputElement,
    rack_on: (HtmlElement, Pressed<Mount>),
    whole: HtmlElement,
    body: Element,
    add: HtmlElement,
    mounts: RefCell<Vec<Row>>,
    carries: Element,
    ticks: RefCell<Vec<(Anchor, HtmlInputElement, Listener)>>,
}

/// More than this, left, are no mounts but a weld.
const MOST_MOUNTS: usize = 6;

/// A further mount first stands this far behind the last, mm.
const BEHIND: f64 = 100.0;

struct Row {
    boxes: [NumberBox; 6],
    _remove: Listener,
}

/// A number of a mount: its place, then its stiffness.
fn part(mount: &mut SubframeMount, at: usize) -> &mut f64 {
    if at < 3 { &mut mount.at[at] } else { &mut mount.stiffness[at - 3] }
}

fn mount(page: &Page, which: usize) -> Option<SubframeMount> {
    page.with(|app| app.document.layout.subframe.as_ref()?.mounts.get(which).copied())
}

impl Row {
    fn new(page: &Page, body: &Element, which: usize) -> Row {
        let row: Element = make(body, "tr");
        let heading: Element = make(&row, "th");
        set(&heading, "scope", "row");
        let number = which + 1;
        heading.set_text_content(Some(&number.to_string()));
        let boxes = [0, 1, 2, 3, 4, 5].map(|at| {
            let axis = ["x", "y", "z"][at % 3];
            let label = match at {
                0..3 => format!("mount {number}, {axis}, mm"),
                _ => format!("mount {number}, stiffness along {axis}, N/mm"),
            };
            NumberBox::new(page, &make(&row, "td"), &label, move |page, value| {
                if let Some(mut changed) = mount(page, which) {
                    *part(&mut changed, at) = value;
                    page.send(Soften::Mount(which, Some(changed)));
                }
            })
        });
        let remove: Element = make(&make::<Element>(&row, "td"), "button");
        remove.set_text_content(Some("×"));
        set(&remove, "aria-label", &format!("remove mount {number}"));
        let page = page.clone();
        let removed = Listener::new(&remove, "click", move |_: Event| page.send(Soften::Mount(which, None)));
        Row { boxes, _remove: removed }
    }
}

/// Lays the same axle with its rack on the other of the two over this one, and pins what that changes.
fn compare(page: &Page) {
    let (mut other, pinned) = page.with(|app| (app.document.layout.clone(), app.document.pinned.contains(&STEER)));
    let Some(rack) = &mut other.rack else { return };
    let (mount, name) = match rack.mount {
        Mount::Body => (Mount::Subframe, "rack on the subframe"),
        Mount::Subframe => (Mount::Body, "rack on the body"),
    };
    rack.mount = mount;
    other.name = name.into();
    page.send(About::Compare(Some(Box::new(other))));
    if !pinned {
        page.send(Show::Pin(STEER));
    }
}

impl Frame {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Frame {
        let tick: HtmlInputElement = find("has-subframe");
        let (ticking, ticked) = (page.clone(), tick.clone());
        on(&tick, "change", move |_: Event| {
            let usual = ticking.with(|app| Subframe::usual(&app.document.layout, SubframeMount::RUBBER));
            ticking.send(Soften::Subframe(ticked.checked().then_some(usual)));
        });
        let add: HtmlElement = find("add-mount");
        let adding = page.clone();
        on(&add, "click", move |_: Event| {
            let mounts = adding.with(|app| app.document.layout.subframe.clone().map(|frame| frame.mounts));
            if let Some((last, count)) = mounts.as_ref().and_then(|mounts| Some((mounts.last()?, mounts.len()))) {
                let at = last.at - Vec3::x() * BEHIND;
                adding.send(Soften::Mount(count, Some(SubframeMount { at, ..*last })));
            }
        });
        for (id, stiffness) in [("mounts-rubber", SubframeMount::RUBBER), ("mounts-bolted", SubframeMount::BOLTED)] {
            let page = page.clone();
            on(&find::<Element>(id), "click", move |_: Event| page.send(Soften::Mounts(stiffness)));
        }
        let comparing = page.clone();
        on(&find::<Element>("compare-rack"), "click", move |_: Event| compare(&comparing));
        let on = [(Mount::Body, "rack-on-body"), (Mount::Subframe, "rack-on-subframe")];
        Frame {
            tick,
            rack_on: (find("rack-on"), Pressed::new(page, &on, |page, mount| page.send(Soften::RackOn(mount)))),
            whole: find("subframe"),
            body: find("mount-rows"),
            add,
            mounts: RefCell::default(),
            carries: find("carries"),
            ticks: RefCell::default(),
        }
    }

    /// Shows it.
    pub fn show(&self, page: &Page, app: &App) {
        let layout = &app.document.layout;
        self.tick.set_checked(layout.subframe.is_some());
        self.rack_on.0.set_hidden(layout.rack.is_none());
        if let Some(rack) = &layout.rack {
            self.rack_on.1.show(rack.mount);
        }
        self.whole.set_hidden(layout.subframe.is_none());
        let mounts = layout.subframe.as_ref().map_or(&[][..], |subframe| &subframe.mounts);
        self.add.set_hidden(mounts.len() >= MOST_MOUNTS);
        let mut rows = self.mounts.borrow_mut();
        if rows.len() != mounts.len() {
            rows.clear();
            self.body.set_text_content(None);
            *rows = (0..mounts.len()).map(|which| Row::new(page, &self.body, which)).collect();
        }
        for (row, mount) in rows.iter().zip(mounts) {
            let mut mount = *mount;
            row.boxes.iter().enumerate().for_each(|(at, shown)| shown.show(&plain(*part(&mut mount, at))));
        }
        self.carried(page, app);
    }

    /// What it carries: a tick each.
    fn carried(&self, page: &Page, app: &App) {
        let layout = &app.document.layout;
        let can = |at: &Anchor| *at == Anchor::Rack || at.has_bush(layout);
        let places: Vec<Anchor> = Anchor::all(layout).into_iter().filter(can).collect();
        let mut ticks = self.ticks.borrow_mut();
        if !ticks.iter().map(|(anchor, ..)| anchor).eq(&places) {
            ticks.clear();
            self.carries.set_text_content(None);
            *ticks = places.into_iter().map(|anchor| self.tick_for(page, anchor)).collect();
        }
        for (anchor, tick, _) in ticks.iter() {
            tick.set_checked(layout.subframe_carries(*anchor));
        }
    }

    fn tick_for(&self, page: &Page, anchor: Anchor) -> (Anchor, HtmlInputElement, Listener) {
        let label: Element = make(&self.carries, "label");
        let tick: HtmlInputElement = make(&label, "input");
        set(&tick, "type", "checkbox");
        make::<Element>(&label, "span").set_text_content(Some(name(anchor)));
        let (page, ticked) = (page.clone(), tick.clone());
        let listener =
            Listener::new(&tick, "change", move |_: Event| page.send(Soften::Carry(anchor, ticked.checked())));
        (anchor, tick, listener)
    }
}
