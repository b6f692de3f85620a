//! With what this car can be adjusted: a list, and boxes for one more.

use crate::app::{App, Build, Edit, Say};
use crate::browser::dom::{find, make, on, set};
use crate::browser::page::Page;
use crate::panes::boxes::choice;
use crate::text::change::label;
use crate::text::number::{parse, plain};
use crate::text::sentence::capital;
use kernel::{Adjusted, Adjuster, Change, Layout, PointId, Vec3};
use std::cell::RefCell;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlInputElement, HtmlSelectElement};

/// The list, and the choice of what one more sets.
pub struct Adjusters {
    list: Element,
    written: RefCell<Option<Vec<String>>>,
    sets: HtmlSelectElement,
    names: RefCell<Vec<String>>,
}

/// What an adjuster can set on an axle: lengths, the carrier's angles, and joints along a direction.
fn settable(layout: &Layout) -> Vec<Adjusted> {
    let change = |change: &Change| matches!(change, Change::Length(_) | Change::CarrierCamber | Change::CarrierToe);
    let changes = Change::all(layout).into_iter().filter(change).map(Adjusted::Change);
    let joints = layout.points().map(|(id, _)| id).filter(|id: &PointId| id.is_joint());
    changes.chain(joints.map(|id| Adjusted::Along(id, Vec3::y()))).collect()
}

fn name(layout: &Layout, set: &Adjusted) -> String {
    match set {
        Adjusted::Change(change) => capital(&change.label(layout)),
        Adjusted::Along(id, _) => format!("{}, in its slot or on shims", capital(id.name())),
    }
}

/// The number typed into a box; `None` if there is none.
fn typed(id: &str) -> Option<f64> {
    parse(&find::<HtmlInputElement>(id).value())
}

/// What is typed makes an adjuster, or a sentence says what is missing.
fn read(layout: &Layout, at: usize) -> Result<Adjuster, &'static str> {
    let set = match settable(layout).into_iter().nth(at).ok_or("Choose what it sets.")? {
        Adjusted::Along(id, _) => {
            let along = ["along-x", "along-y", "along-z"].map(|id| typed(id).unwrap_or_default());
            let along = Vec3::from(along).try_normalize(0.0);
            Adjusted::Along(id, along.ok_or("The direction of the slot needs a number that is not 0.")?)
        }
        change => change,
    };
    let range = [typed("range-least"), typed("range-most")];
    let [Some(least), Some(most)] = range else { return Err("The range needs two numbers.") };
    let [pitch, step] = ["pitch", "shim"].map(|id| typed(id).filter(|mm| *mm != 0.0));
    if least > most {
        return Err("The range begins at its smaller end.");
    }
    if pitch.is_some() && step.is_some() {
        return Err("It is turned or shimmed, not both: leave one of the boxes blank.");
    }
    Ok(Adjuster { set, range: [least, most], pitch, step })
}

/// An adjuster in words.
fn words(layout: &Layout, adjuster: &Adjuster) -> String {
    let [least, most] = adjuster.range.map(|end| plain(end).replace('-', "\u{2212}"));
    let along = match &adjuster.set {
        Adjusted::Along(_, along) => {
            let parts = ["x", "y", "z"].iter().zip(along.iter()).filter(|(_, part)| **part != 0.0);
            let parts = parts.map(|(axis, part)| format!("{axis} {}", plain(*part).replace('-', "\u{2212}")));
            format!(" ({})", parts.collect::<Vec<_>>().join(", "))
        }
        Adjusted::Change(_) => String::new(),
    };
    let by = adjuster.pitch.map(|pitch| format!("; {} mm a turn", plain(pitch)));
    let by = by.or(adjuster.step.map(|step| format!("; shims of {} mm", plain(step)))).unwrap_or_default();
    format!("{}{along}: {least} to {most} {}{by}", capital(&label(layout, adjuster)), adjuster.unit())
}

impl Adjusters {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Adjusters {
        let sets = choice(page, "adjuster-sets", &[], |page, _| page.change());
        let (fitting, chosen) = (page.clone(), sets.clone());
        on(&find::<Element>("fit-adjuster"), "submit", move |event: Event| {
            event.prevent_default();
            let at = usize::try_from(chosen.selected_index()).unwrap_or(usize::MAX);
            match fitting.with(|app| read(&app.document.layout, at)) {
                Ok(adjuster) => fitting.send(Edit::Build(Build::Fit(adjuster))),
                Err(sentence) => fitting.send(Say::Sentence(sentence.into())),
            }
        });
        let (list, removing) = (find::<Element>("fitted"), page.clone());
        on(&list, "click", move |event: Event| {
            let button = event.target().and_then(|target| target.dyn_into::<Element>().ok());
            let at = button.and_then(|button| button.get_attribute("data-at")?.parse().ok());
            if let Some(at) = at {
                removing.send(Edit::Build(Build::Unfit(at)));
            }
        });
        Adjusters { list, written: RefCell::default(), sets, names: RefCell::default() }
    }

    /// Shows it.
    pub fn show(&self, app: &App) {
        let layout = &app.document.layout;
        let all = settable(layout);
        let names: Vec<String> = all.iter().map(|set| name(layout, set)).collect();
        if *self.names.borrow() != names {
            self.sets.set_inner_html("");
            for name in &names {
                make::<Element>(&self.sets, "option").set_text_content(Some(name));
            }
            // The track rod comes first to mind.
            let rod = all.iter().position(|set| *set == Adjusted::Change(Change::Length(kernel::Member::TrackRod)));
            self.sets.set_selected_index(rod.and_then(|at| i32::try_from(at).ok()).unwrap_or_default());
            self.names.replace(names);
        }
        let chosen = usize::try_from(self.sets.selected_index()).ok().and_then(|at| all.get(at));
        find::<web_sys::HtmlElement>("along").set_hidden(!matches!(chosen, Some(Adjusted::Along(..))));
        let fitted: Vec<String> = layout.changes.adjusters.iter().map(|adjuster| words(layout, adjuster)).collect();
        if self.written.borrow().as_ref() == Some(&fitted) {
            return;
        }
        self.list.set_text_content(None);
        if fitted.is_empty() {
            let none = "None named: every member’s length, and a strut’s top mount, are offered above, up to 20 mm.";
            make::<Element>(&self.list, "li").set_text_content(Some(none));
        }
        for (at, words) in fitted.iter().enumerate() {
            let item: Element = make(&self.list, "li");
            make::<Element>(&item, "span").set_text_content(Some(words));
            let button: Element = make(&item, "button");
            button.set_text_content(Some("×"));
            set(&button, "data-at", &at.to_string());
            set(&button, "aria-label", &format!("Remove the adjuster: {words}"));
        }
        self.written.replace(Some(fitted));
    }
}
