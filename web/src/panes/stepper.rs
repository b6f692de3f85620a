//! Under the drawing of a small screen: the joint or mount in hand is moved by thumb, by 0.1, 1 or 10 mm.

use super::pressed::Pressed;
use crate::app::{App, Hand};
use crate::browser::dom::{Shown, Veil, find, on};
use crate::browser::page::{Page, Pane};
use kernel::Vec3;
use std::cell::Cell;
use std::rc::Rc;
use web_sys::{Element, Event, HtmlButtonElement};

/// Name, coordinates, and a button each way.
pub struct Stepper {
    whole: Veil,
    name: Shown,
    step: Rc<Cell<f64>>,
    steps: Pressed<f64>,
    axes: [([HtmlButtonElement; 2], Shown); 3],
}

const AXES: [&str; 3] = ["x", "y", "z"];

impl Stepper {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Stepper {
        let step = Rc::new(Cell::new(1.0));
        let chosen = step.clone();
        let steps =
            Pressed::new(page, &[(0.1, "step-tenth"), (1.0, "step-one"), (10.0, "step-ten")], move |page, mm| {
                chosen.set(mm);
                page.change();
            });
        let axis = |axis: usize| {
            let button = |(sign, way): (f64, &str)| {
                let button: HtmlButtonElement = find(&format!("step-{way}-{}", AXES[axis]));
                let (page, step) = (page.clone(), step.clone());
                on(&button, "click", move |_: Event| {
                    let mut by = Vec3::zeros();
                    by[axis] = sign * step.get();
                    let before = page.with(App::spoken_joint);
                    page.send(Hand::Nudge(by));
                    page.say(&page.with(|app| app.spoken_step(&before)));
                });
                button
            };
            let buttons = [(-1.0, "less"), (1.0, "more")].map(button);
            (buttons, Shown::text(find::<Element>(&format!("step-{}", AXES[axis]))))
        };
        Stepper {
            axes: [0, 1, 2].map(axis),
            whole: Veil::of("stepper"),
            name: Shown::text(find::<Element>("stepper-name")),
            step,
            steps,
        }
    }
}

impl Pane for Stepper {
    fn show(&self, _: &Page, app: &App) {
        let joint = app.selected.and_then(|id| Some((id, app.document.layout.point(id)?)));
        let mount = app.mount_in_hand();
        let at = joint.map(|(_, at)| at).or(mount.map(|(_, at)| at));
        self.whole.set_hidden(at.is_none());
        let Some(at) = at else { return };
        self.name.show(
            &joint.map_or_else(
                || format!("mount {}", mount.map_or(0, |(which, _)| which + 1)),
                |(id, _)| id.name().into(),
            ),
        );
        self.steps.show(self.step.get());
        let ranges = joint.map_or([Some([0.0; 2]); 3], |(id, _)| app.document.ranges(id));
        for (i, (buttons, value)) in self.axes.iter().enumerate() {
            value.show(&app.document.units.length(at[i]));
            buttons.iter().for_each(|button| button.set_disabled(ranges[i].is_none()));
        }
    }
}
