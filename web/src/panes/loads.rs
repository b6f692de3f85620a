//! Loads: the case and what the steering feels of it, what members, strut rod and joints bear, spring and ride height, and the vehicle.
//! Brought up to date only while it is shown.

mod arms;
mod car;
mod giving;
mod ride;
mod spring;
mod steering;
mod strut;

use crate::app::{App, Show};
use crate::browser::dom::find;
use crate::browser::page::{Page, Pane};
use crate::document::Loads;
use web_sys::HtmlElement;

/// The pane.
pub struct LoadsPane {
    whole: HtmlElement,
    steering: steering::Steering,
    arms: arms::Arms,
    strut: strut::Strut,
    ride: ride::Ride,
    giving: giving::Giving,
    spring: spring::SpringParts,
    car: car::Car,
}

/// Changes the document's loads.
fn change(page: &Page, change: impl FnOnce(&mut Loads)) {
    let mut loads = page.with(|app| app.document.loads);
    change(&mut loads);
    page.send(Show::Loads(loads));
}

impl LoadsPane {
    /// Finds the pane on the page.
    pub fn new(page: &Page) -> LoadsPane {
        LoadsPane {
            whole: find("loads"),
            steering: steering::Steering::new(page),
            arms: arms::Arms::new(page),
            strut: strut::Strut::new(page),
            ride: ride::Ride::new(page),
            giving: giving::Giving::new(page),
            spring: spring::SpringParts::new(page),
            car: car::Car::new(page),
        }
    }
}

impl Pane for LoadsPane {
    fn show(&self, _: &Page, app: &App) {
        if self.whole.hidden() {
            return;
        }
        let loaded = app.study.loaded.as_ref();
        self.steering.show(app);
        self.arms.show(app);
        self.strut.show(app, loaded);
        self.ride.show(app);
        self.giving.show(app);
        self.spring.show(app);
        self.car.show(app);
    }
}
