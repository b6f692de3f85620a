//! The one table of a part's numbers: what files call each, what the page and its sentences call it, its unit and range, and where it is kept.
//! The reader of files, the check of layouts, links and the boxes of the page go by it, so that for them a new number is a row here and a field of
//! its part. A link has the numbers of a part in the order of its table: new ones are added at the end.

use super::{AntiRollBar, Damper, HalfShaft, Rack, Rocker, Solid, Spring, Stops, Vehicle, Wheel};

/// Coordinates and lengths are limited to ±`LIMIT` mm: ten metres hold any axle, and a slipped decimal point shows.
pub const LIMIT: f64 = 10_000.0;

/// A number of a part `P`.
pub struct Field<P: 'static> {
    /// What files call it.
    pub key: &'static str,
    /// What it is called before a box for it, among the others of its part.
    pub name: &'static str,
    /// What a sentence calls it, behind “the”.
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

impl<P> Field<P> {
    /// Its name with its unit.
    pub fn title(&self) -> String {
        if self.unit.is_empty() { self.name.into() } else { format!("{}, {}", self.name, self.unit) }
    }
}

/// The numbers of a part.
pub fn values<P>(part: &P, fields: &[Field<P>]) -> Vec<f64> {
    fields.iter().map(|field| (field.get)(part)).collect()
}

/// The same part with other numbers, as many as there are.
pub fn with<P>(mut part: P, fields: &[Field<P>], values: &[f64]) -> P {
    for (field, value) in fields.iter().zip(values) {
        (field.set)(&mut part, *value);
    }
    part
}

/// Shorthand for the tables below: a field of the same name as its key; the page calls it as sentences do unless it has a name of its own.
macro_rules! field {
    ($key:ident, $name:literal, $label:literal, $unit:literal, $least:expr, $greatest:expr) => {
        Field {
            key: stringify!($key),
            name: $name,
            label: $label,
            unit: $unit,
            range: [$least, $greatest],
            get: |part| part.$key,
            set: |part, value| part.$key = value,
        }
    };
    ($key:ident, $label:literal, $unit:literal, $least:expr, $greatest:expr) => {
        field!($key, $label, $label, $unit, $least, $greatest)
    };
}

/// Shorthand for a part of the rocker's direction.
macro_rules! rocker_axis {
    ($key:literal, $axis:ident) => {
        Field {
            key: $key,
            name: concat!("axis of the rocker, ", $key),
            label: "direction of the rocker’s axis",
            unit: "",
            range: [-LIMIT, LIMIT],
            get: |rocker| rocker.axis.$axis,
            set: |rocker, value| rocker.axis.$axis = value,
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

/// The steering rack.
pub static RACK: [Field<Rack>; 2] =
    [field!(travel, "rack travel", "mm", 0.1, 1_000.0), field!(per_turn, "rack stroke per turn", "mm", 0.1, 1_000.0)];

/// The spring; its ends are points.
pub static SPRING: [Field<Spring>; 1] = [field!(rate, "spring rate", "N/mm", 0.001, 1e6)];

/// The rocker's axis; its other places are points.
pub static ROCKER: [Field<Rocker>; 3] = [rocker_axis!("x", x), rocker_axis!("y", y), rocker_axis!("z", z)];

/// The vehicle.
pub static VEHICLE: [Field<Vehicle>; 13] = [
    field!(wheelbase, "wheelbase", "mm", 500.0, LIMIT),
    field!(mass, "mass", "vehicle’s mass", "kg", 1.0, 100_000.0),
    field!(front_share, "front share of the weight", "front axle’s share of the weight", "", 0.01, 0.99),
    field!(cg_height, "height of the centre of gravity", "mm", 50.0, 5_000.0),
    field!(brake_share, "front share of braking", "front axle’s share of the braking force", "", 0.0, 1.0),
    field!(unsprung_mass, "unsprung mass of a wheel", "unsprung mass", "kg", 0.0, 5_000.0),
    field!(rear_roll_centre, "rear roll centre", "height of the rear roll centre", "mm", -LIMIT, LIMIT),
    field!(roll_stiffness, "roll stiffness", "N·m/°", 0.0, 1e6),
    field!(
        roll_stiffness_share,
        "front share of roll stiffness",
        "front axle’s share of the roll stiffness",
        "",
        0.0,
        1.0
    ),
    field!(steering_efficiency, "efficiency of the steering gear", "steering gear’s efficiency", "", 0.05, 1.0),
    field!(width, "width of the body", "mm", 0.0, LIMIT),
    field!(front_overhang, "front overhang", "mm", 0.0, LIMIT),
    field!(pneumatic_trail, "pneumatic trail", "mm", -200.0, 200.0),
];

/// The damper inside a strut.
pub static DAMPER: [Field<Damper>; 4] = [
    field!(guide, "mount to guide", "distance from top mount to rod guide", "mm", 1.0, LIMIT),
    field!(piston, "guide to piston", "distance from rod guide to piston", "mm", 1.0, LIMIT),
    field!(rod, "rod diameter", "damper rod’s diameter", "mm", 1.0, 1_000.0),
    field!(friction, "friction µ", "friction coefficient of the damper", "", 0.0, 1.0),
];

/// The anti-roll bar; its joints are points.
pub static BAR: [Field<AntiRollBar>; 2] = [
    Field {
        key: "stiffness",
        name: "stiffness",
        label: "anti-roll bar’s stiffness",
        unit: "N·m/°",
        range: [0.0, 1e6],
        // As links have it, 0 is that of the diameter; a file leaves it out.
        get: |bar| bar.stiffness.unwrap_or_default(),
        set: |bar, stiffness| bar.stiffness = Some(stiffness).filter(|stiffness| *stiffness > 0.0),
    },
    field!(diameter, "solid steel bar, diameter", "anti-roll bar’s diameter", "mm", 1.0, 500.0),
];

/// Shorthand for a size of what is solid, which has a default.
macro_rules! size {
    ($key:ident, $name:literal, $label:literal, $greatest:expr) => {
        Field {
            key: stringify!($key),
            name: $name,
            label: $label,
            unit: "mm",
            range: [1.0, $greatest],
            get: |solid| solid.$key(),
            set: |solid, value| solid.$key = Some(value),
        }
    };
}

/// How thick parts are; the bends of arms are points.
pub static SOLID: [Field<Solid>; 6] = [
    size!(arm, "arms, diameter", "arms’ diameter", 500.0),
    size!(track_rod, "track rod, diameter", "track rod’s diameter", 500.0),
    size!(strut, "strut’s tube, diameter", "strut’s diameter", 500.0),
    size!(spring, "spring, outer diameter", "spring’s diameter", 500.0),
    size!(spring_seat, "top mount to the strut’s spring seat", "distance from top mount to spring seat", LIMIT),
    size!(half_shaft, "half-shaft, diameter", "half-shaft’s diameter", 500.0),
];

/// The half-shaft; its left joints are points.
pub static SHAFT: [Field<HalfShaft>; 1] = [Field {
    key: "right_inner_y",
    name: "right half-shaft, inner joint y",
    label: "right half-shaft’s inner joint, y,",
    unit: "mm",
    range: [-LIMIT, LIMIT],
    get: |shaft| shaft.right_inner_y.unwrap_or(-shaft.inner.y),
    set: |shaft, y| shaft.right_inner_y = Some(y),
}];

/// Bump and rebound stops.
pub static STOPS: [Field<Stops>; 2] = [
    field!(bump, "bump travel to the stop", "travel at the bump stop", "mm", 0.0, 1_000.0),
    field!(rebound, "rebound travel to the stop", "travel at the rebound stop", "mm", 0.0, 1_000.0),
];
