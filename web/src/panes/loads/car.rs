//! The vehicle that the load cases know, and the half-shaft that drives the wheel.

use crate::app::{App, Part};
use crate::browser::page::Page;
use crate::panes::boxes::{Boxes, choice, part};
use kernel::field::{Field, SHAFT, VEHICLE};
use kernel::{Drive, HalfShaft, RollFrom, Vehicle};
use web_sys::{HtmlInputElement, HtmlSelectElement};

/// The vehicle's numbers as the page asks for them: the body's before the steering's, which are older in the table.
fn asked() -> impl Iterator<Item = &'static Field<Vehicle>> {
    let body = |field: &&Field<Vehicle>| ["width", "front_overhang"].contains(&field.key);
    let (weight, rest) = VEHICLE.split_at(OF_WEIGHT);
    weight.iter().chain(rest.iter().filter(body)).chain(rest.iter().filter(move |field| !body(field)))
}

/// How many of them, first in the table, are of weight and roll.
const OF_WEIGHT: usize = 9;

/// The vehicle and its drive.
pub struct Car {
    vehicle: Boxes<Vehicle>,
    drive: HtmlSelectElement,
    roll_from: HtmlSelectElement,
    shaft: HtmlInputElement,
    right: Boxes<HalfShaft>,
}

impl Car {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Car {
        Car {
            vehicle: Boxes::new(page, "vehicle", asked(), |document| Some(document.layout.vehicle()), Part::Vehicle),
            drive: choice(page, "drive", &Drive::ALL.map(|(_, name)| name), |page, at| {
                let mut vehicle = page.with(|app| app.document.layout.vehicle());
                vehicle.drive = Drive::ALL[at.min(2)].0;
                page.send(Part::Vehicle(vehicle));
            }),
            roll_from: choice(page, "roll-from", &["these numbers", "this axle"], |page, at| {
                let mut vehicle = page.with(|app| app.document.layout.vehicle());
                vehicle.roll_stiffness_from = RollFrom::ALL[at.min(1)].0;
                page.send(Part::Vehicle(vehicle));
            }),
            shaft: part(page, "has-shaft", |layout, has| Part::HalfShaft(has.then(|| HalfShaft::usual(layout)))),
            right: Boxes::new(page, "right-shaft", &SHAFT, |document| document.layout.half_shaft, right_shaft),
        }
    }

    /// Shows it.
    pub fn show(&self, app: &App) {
        let layout = &app.document.layout;
        let vehicle = layout.vehicle();
        self.vehicle.show(Some(&vehicle));
        let drive = Drive::ALL.iter().position(|(drive, _)| *drive == vehicle.drive).unwrap_or_default();
        self.drive.set_selected_index(i32::try_from(drive).unwrap_or_default());
        self.roll_from.set_selected_index(i32::from(vehicle.roll_stiffness_from == RollFrom::Axle));
        self.shaft.set_checked(layout.half_shaft.is_some());
        self.right.show(layout.half_shaft.as_ref());
    }
}

/// A right half-shaft whose inner joint mirrors the left one's has none of its own.
fn right_shaft(shaft: HalfShaft) -> Part {
    let right_inner_y = shaft.right_inner_y.filter(|y| *y != -shaft.inner.y);
    Part::HalfShaft(Some(HalfShaft { right_inner_y, ..shaft }))
}
