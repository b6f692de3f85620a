//! The vehicle that the load cases know, and the half-shaft that drives the wheel.

use crate::app::{App, Part};
use crate::browser::page::Page;
use crate::panes::boxes::{Boxes, Field, choice, part};
use kernel::{Drive, HalfShaft, RollFrom, Vehicle};
use web_sys::{HtmlInputElement, HtmlSelectElement};

const VEHICLE: [Field<Vehicle>; 13] = [
    ("wheelbase, mm", |v| v.wheelbase, |v, x| v.wheelbase = x),
    ("mass, kg", |v| v.mass, |v, x| v.mass = x),
    ("front share of the weight", |v| v.front_share, |v, x| v.front_share = x),
    ("height of the centre of gravity, mm", |v| v.cg_height, |v, x| v.cg_height = x),
    ("front share of braking", |v| v.brake_share, |v, x| v.brake_share = x),
    ("unsprung mass of a wheel, kg", |v| v.unsprung_mass, |v, x| v.unsprung_mass = x),
    ("rear roll centre, mm", |v| v.rear_roll_centre, |v, x| v.rear_roll_centre = x),
    ("roll stiffness, N·m/°", |v| v.roll_stiffness, |v, x| v.roll_stiffness = x),
    ("front share of roll stiffness", |v| v.roll_stiffness_share, |v, x| v.roll_stiffness_share = x),
    ("width of the body, mm", |v| v.width, |v, x| v.width = x),
    ("front overhang, mm", |v| v.front_overhang, |v, x| v.front_overhang = x),
    ("efficiency of the steering gear", |v| v.steering_efficiency, |v, x| v.steering_efficiency = x),
    ("pneumatic trail, mm", |v| v.pneumatic_trail, |v, x| v.pneumatic_trail = x),
];

const RIGHT: [Field<Option<HalfShaft>>; 1] = [(
    "right half-shaft, inner joint y, mm",
    |shaft| shaft.map_or(0.0, |shaft| shaft.right_inner_y.unwrap_or(-shaft.inner.y)),
    |shaft, y| {
        *shaft = shaft.map(|shaft| HalfShaft { right_inner_y: Some(y).filter(|y| *y != -shaft.inner.y), ..shaft })
    },
)];

/// The vehicle and its drive.
pub struct Car {
    vehicle: Boxes<Vehicle>,
    drive: HtmlSelectElement,
    roll_from: HtmlSelectElement,
    shaft: HtmlInputElement,
    right: Boxes<Option<HalfShaft>>,
}

impl Car {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Car {
        Car {
            vehicle: Boxes::new(page, "vehicle", &VEHICLE, |document| document.layout.vehicle(), Part::Vehicle),
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
            right: Boxes::new(page, "right-shaft", &RIGHT, |document| document.layout.half_shaft, Part::HalfShaft),
        }
    }

    /// Shows it.
    pub fn show(&self, app: &App) {
        let layout = &app.document.layout;
        let vehicle = layout.vehicle();
        self.vehicle.show(&vehicle);
        let drive = Drive::ALL.iter().position(|(drive, _)| *drive == vehicle.drive).unwrap_or_default();
        self.drive.set_selected_index(i32::try_from(drive).unwrap_or_default());
        self.roll_from.set_selected_index(i32::from(vehicle.roll_stiffness_from == RollFrom::Axle));
        self.shaft.set_checked(layout.half_shaft.is_some());
        self.right.show(&layout.half_shaft);
    }
}
