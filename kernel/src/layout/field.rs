//! The one table of a part's numbers: what files call each, what people call it, its unit and range, and where it is kept. The reader of files and
//! the check of layouts go by it, so that for them a new number is a row here and a field of its part.

use super::{Damper, Stops, Vehicle, Wheel};

/// Coordinates and lengths are limited to ±`LIMIT` mm: ten metres hold any axle, and a slipped decimal point shows.
pub const LIMIT: f64 = 10_000.0;

/// A number of a part `P`.
pub struct Field<P: 'static> {
    /// What files call it.
    pub key: &'static str,
    /// What people call it, to stand behind “the”.
    pub label: &'static str,
    /// Its unit; empty for a plain number.
    pub unit: &'static str,
    /// The least and the greatest that it may be.
    pub range: [f64; 2],
    /// Reads it.
    pub get: fn(&P) -> f64,
    /// Writes it.
    pub set: fn(&mut P, f64),
}

/// Shorthand for the tables below: a field of the same name as its key.
macro_rules! field {
    ($key:ident, $label:literal, $unit:literal, $least:expr, $greatest:expr) => {
        Field {
            key: stringify!($key),
            label: $label,
            unit: $unit,
            range: [$least, $greatest],
            get: |part| part.$key,
            set: |part, value| part.$key = value,
        }
    };
}

/// The wheel at rest; its centre is a point.
pub static WHEEL: [Field<Wheel>; 5] = [
    field!(camber, "camber", "°", -45.0, 45.0),
    field!(toe, "toe", "°", -45.0, 45.0),
    field!(loaded_radius, "loaded radius", "mm", 1.0, LIMIT),
    field!(free_radius, "free radius", "mm", 1.0, LIMIT),
    field!(width, "tyre width", "mm", 1.0, LIMIT),
];

/// The vehicle; new numbers are added at the end.
pub static VEHICLE: [Field<Vehicle>; 13] = [
    field!(wheelbase, "wheelbase", "mm", 500.0, LIMIT),
    field!(mass, "vehicle’s mass", "kg", 1.0, 100_000.0),
    field!(front_share, "front axle’s share of the weight", "", 0.01, 0.99),
    field!(cg_height, "height of the centre of gravity", "mm", 50.0, 5_000.0),
    field!(brake_share, "front axle’s share of the braking force", "", 0.0, 1.0),
    field!(unsprung_mass, "unsprung mass", "kg", 0.0, 5_000.0),
    field!(rear_roll_centre, "height of the rear roll centre", "mm", -LIMIT, LIMIT),
    field!(roll_stiffness, "roll stiffness", "N·m/°", 0.0, 1e6),
    field!(roll_stiffness_share, "front axle’s share of the roll stiffness", "", 0.0, 1.0),
    field!(steering_efficiency, "steering gear’s efficiency", "", 0.05, 1.0),
    field!(width, "width of the body", "mm", 0.0, LIMIT),
    field!(front_overhang, "front overhang", "mm", 0.0, LIMIT),
    field!(pneumatic_trail, "pneumatic trail", "mm", -200.0, 200.0),
];

/// The damper inside a strut.
pub static DAMPER: [Field<Damper>; 4] = [
    field!(guide, "distance from top mount to rod guide", "mm", 1.0, LIMIT),
    field!(piston, "distance from rod guide to piston", "mm", 1.0, LIMIT),
    field!(rod, "damper rod’s diameter", "mm", 1.0, 1_000.0),
    field!(friction, "friction coefficient of the damper", "", 0.0, 1.0),
];

/// Bump and rebound stops.
pub static STOPS: [Field<Stops>; 2] = [
    field!(bump, "travel at the bump stop", "mm", 0.0, 1_000.0),
    field!(rebound, "travel at the rebound stop", "mm", 0.0, 1_000.0),
];
