//! A document: what is saved, shared and undone.

use crate::lesson::{Answer, Lesson};
use crate::number::Units;
use crate::story::Shot;
use crate::study::{MOST_TRAVEL, TRAVEL};
use kernel::{Amount, Group, Layout, LoadCase, Material, PointId, READINGS, Reading, Section, Unit, Whole};

/// What is saved, shared and undone.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The axle.
    pub layout: Layout,
    /// The axle laid over it.
    pub compared: Option<Layout>,
    /// Rise of the wheel centre, mm.
    pub travel: f64,
    /// Rack displacement, mm.
    pub rack: f64,
    /// The travel, mm, at which the car stands: what *at rest* means on the page. 0 is the layout's own rest.
    pub ride: f64,
    /// Points, or coordinates of points, that hands and keys must not move.
    pub locks: Vec<Lock>,
    /// How far a measured point may be off, mm each way along each coordinate; points not named are taken as exact.
    pub errors: Vec<(PointId, f64)>,
    /// Columns of the readings shown as curves, in the order they were pinned.
    pub pinned: Vec<&'static str>,
    /// What the curves run over.
    pub over: Over,
    /// What lengths, angles and toe are shown in.
    pub units: Units,
    /// What loads the axle, and what its arms are taken to be.
    pub loads: Loads,
    /// The shots of a story, in order; empty if this is none.
    pub story: Vec<Shot>,
    /// The lesson, if this is one.
    pub lesson: Option<Lesson>,
    /// What a student has answered.
    pub answer: Answer,
    /// Both wheels are shown, not the left one alone.
    pub whole: bool,
    /// Roll of the body, degrees, positive when it leans to the right; only the whole axle rolls.
    pub roll: f64,
}

/// What loads the axle, and what its arms are taken to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loads {
    /// The load shown.
    pub case: Case,
    /// The reader's own load, N: at the road along heading, side and up, then the same at the wheel centre.
    pub own: [f64; 6],
    /// Driving torque of that load on the wheel, N·m, through the half-shaft.
    pub own_torque: f64,
    /// Material of the arms.
    pub material: Material,
    /// Cross-section of the arms.
    pub section: Section,
    /// Allowed bending stress of a strut's rod, N/mm².
    pub stress: f64,
    /// How far a ball joint may swing from rest, degrees.
    pub swing: f64,
}

impl Default for Loads {
    fn default() -> Loads {
        Loads {
            case: Case::None,
            own: [0.0, 0.0, 4000.0, 0.0, 0.0, 0.0],
            own_torque: 0.0,
            material: Material::Steel,
            section: Section::Tube { outer: 30.0, wall: 3.0 },
            stress: 250.0,
            swing: 20.0,
        }
    }
}

impl Loads {
    /// What is wrong with typed ones: the first number out of its range.
    pub fn problem(&self) -> Option<String> {
        let forces = self.own.map(|force| ("force of your own load", force, [-MOST_FORCE, MOST_FORCE], "N"));
        let torque = ("torque of your own load", self.own_torque, [-MOST_FORCE, MOST_FORCE], "N·m");
        let section = match self.section {
            Section::Tube { outer, wall } => {
                [("tube’s diameter", outer, [1.0, 500.0], "mm"), ("tube’s wall", wall, [0.1, outer / 2.0], "mm")]
            }
            Section::Given { area, inertia } => [
                ("section’s area", area, [1.0, 1e6], "mm²"),
                ("section’s second moment of area", inertia, [1.0, 1e9], "mm⁴"),
            ],
        };
        let limits = [
            ("allowed stress", self.stress, [1.0, 10_000.0], "N/mm²"),
            ("allowed joint angle", self.swing, [0.0, 180.0], "°"),
        ];
        forces.into_iter().chain([torque]).chain(section).chain(limits).find_map(
            |(name, value, [least, most], unit)| {
                let beyond = !(least..=most).contains(&value);
                beyond.then(|| {
                    format!(
                        "The {name} can’t be {} {unit}: it must be between {least} and {most} {unit}.",
                        Amount(value)
                    )
                })
            },
        )
    }
}

/// More than a thousand tonnes on a wheel is a slip, N.
const MOST_FORCE: f64 = 1e7;

/// Which load is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Case {
    /// None.
    #[default]
    None,
    /// One of [`LoadCase::all`], by its place there.
    Of(usize),
    /// The reader's own.
    Own,
}

impl Case {
    /// Every choice, with its name in links.
    pub fn all() -> impl Iterator<Item = (Case, &'static str)> {
        let cases = LoadCase::all().iter().enumerate().map(|(at, case)| (Case::Of(at), case.key));
        [(Case::None, "none")].into_iter().chain(cases).chain([(Case::Own, "own")])
    }
}

/// Which coordinates of a point are locked: x, y, z.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lock {
    /// The point.
    pub point: PointId,
    /// Its coordinates.
    pub axes: [bool; 3],
}

/// The greatest measuring error a point can have, mm: more is no measurement.
pub const MOST_ERROR: f64 = 50.0;

/// What the curves run over.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Over {
    /// Wheel travel.
    #[default]
    Travel,
    /// Wheel travel, standing upright as the trade's own diagrams have it.
    TravelUpright,
    /// The rack.
    Steering,
    /// Roll of the body; one wheel alone is shown over travel then.
    Roll,
}

impl Over {
    /// Every choice with its name in links.
    pub const ALL: [(Over, &'static str); 4] = [
        (Over::Travel, "travel"),
        (Over::TravelUpright, "upright"),
        (Over::Steering, "steering"),
        (Over::Roll, "roll"),
    ];
}

/// A reading of one wheel or of the whole axle.
#[derive(Clone, Copy)]
pub enum Quantity {
    /// Of the left wheel.
    Wheel(&'static Reading),
    /// Of the whole axle.
    Axle(&'static Reading<Whole>),
}

impl Quantity {
    /// The reading of a column, or of a column without its unit.
    pub fn named(name: &str) -> Option<Quantity> {
        let wheel = READINGS.iter().find(|reading| reading.column == name || reading.short() == name);
        wheel.map(Quantity::Wheel).or_else(|| Reading::of_axle(name).map(Quantity::Axle))
    }

    /// Its column.
    pub fn column(self) -> &'static str {
        match self {
            Quantity::Wheel(reading) => reading.column,
            Quantity::Axle(reading) => reading.column,
        }
    }

    /// Its column without its unit.
    pub fn short(self) -> &'static str {
        match self {
            Quantity::Wheel(reading) => reading.short(),
            Quantity::Axle(reading) => reading.short(),
        }
    }

    /// Its name on the page.
    pub fn name(self) -> &'static str {
        match self {
            Quantity::Wheel(reading) => reading.name,
            Quantity::Axle(reading) => reading.name,
        }
    }

    /// Its name where no heading stands above it.
    pub fn full_name(self) -> String {
        match self {
            Quantity::Wheel(reading) if reading.group == Group::LeverArms => format!("{} lever arm", reading.name),
            _ => self.name().into(),
        }
    }

    /// Its unit.
    pub fn unit(self) -> Unit {
        match self {
            Quantity::Wheel(reading) => reading.unit,
            Quantity::Axle(reading) => reading.unit,
        }
    }
}

/// What a first visit has pinned.
const PINNED: [&str; 6] =
    ["camber_deg", "toe_deg", "caster_deg", "kingpin_offset_wheel_centre_mm", "scrub_radius_mm", "brake_lever_arm_mm"];

/// The reach of the curves is a multiple of this, mm.
const ROUND: f64 = 20.0;

/// More pinned readings than this make curves too small to read.
pub const MOST_PINNED: usize = 8;

impl Document {
    /// A layout at rest, with the first visit's curves.
    pub fn of(layout: Layout) -> Document {
        Document {
            layout,
            compared: None,
            travel: 0.0,
            rack: 0.0,
            ride: 0.0,
            locks: Vec::new(),
            errors: Vec::new(),
            pinned: PINNED.to_vec(),
            over: Over::Travel,
            units: Units::default(),
            loads: Loads::default(),
            story: Vec::new(),
            lesson: None,
            answer: Answer::default(),
            whole: false,
            roll: 0.0,
        }
    }

    /// Which coordinates of a point are locked.
    pub fn locked(&self, id: PointId) -> [bool; 3] {
        self.locks.iter().find(|lock| lock.point == id).map_or([false; 3], |lock| lock.axes)
    }

    /// Locks these coordinates of a point and frees its others.
    pub fn lock(&mut self, id: PointId, axes: [bool; 3]) {
        self.locks.retain(|lock| lock.point != id);
        if axes != [false; 3] {
            self.locks.push(Lock { point: id, axes });
        }
    }

    /// The measuring error of a point, mm.
    pub fn error(&self, id: PointId) -> f64 {
        self.errors.iter().find(|(point, _)| *point == id).map_or(0.0, |(_, error)| *error)
    }

    /// Sets it.
    pub fn set_error(&mut self, id: PointId, error: f64) {
        self.errors.retain(|(point, _)| *point != id);
        if error > 0.0 {
            self.errors.push((id, error));
        }
    }

    /// How far curves and handle go each way, mm of travel: at least 60, as far as the stops and what is shown, in round numbers.
    pub fn reach(&self) -> f64 {
        let stops = self.layout.stops.map_or(0.0, |stops| f64::max(stops.bump, stops.rebound));
        let most = [stops, self.travel.abs(), self.ride.abs()].into_iter().fold(TRAVEL, f64::max);
        ((most / ROUND).ceil() * ROUND).min(MOST_TRAVEL)
    }

    /// The stroke of the rack each way, mm; 0 for an unsteered axle, and for a broken layout's negative one.
    pub fn rack_travel(&self) -> f64 {
        self.layout.rack.as_ref().map_or(0.0, |rack| rack.travel.max(0.0))
    }
}
