//! The one table of readings: page, curves, table, links and comparison all read it.

mod axle;
mod elastic;
mod gap;
mod known;
mod rig;
mod snapshot;
mod table;
mod wheel;
mod whole;

pub use known::{Gaps, Known};
pub use snapshot::Snapshot;
pub use table::{Table, under_load_header, under_load_row};
pub use whole::Whole;

use axle::AXLE;
use elastic::ELASTIC;
use gap::GAP;
use rig::RIG;
use wheel::WHEEL;

/// A quantity that can be read from a snapshot of an axle. Its column is its id.
#[derive(Clone, Copy)]
pub struct Reading {
    /// Name in tables, links and the JavaScript interface, with its unit.
    pub column: &'static str,
    /// Name on the page.
    pub name: &'static str,
    /// The group it stands in.
    pub group: Group,
    /// Its unit.
    pub unit: Unit,
    /// The sign rule: what a positive value says.
    pub positive: &'static str,
    /// What it is, in a sentence.
    pub meaning: &'static str,
    /// What else the trade calls it, in English and German (common practice); may be empty.
    pub also: &'static str,
    /// How it is computed. W wheel centre, C contact point, k axis, P axis at the road, Q axis at hub height, v velocities.
    pub formula: &'static str,
    /// Where the definition comes from, with its grade.
    pub source: &'static str,
    /// The value; `None` where the state has none (an unsteered axle has no steering axis, a level axis meets no road).
    pub value: fn(&Snapshot) -> Option<f64>,
}

/// Groups of readings, in the order of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// Where the state is.
    Position,
    /// How the wheel stands.
    Wheel,
    /// Angles and offsets of the steering axis.
    SteeringAxis,
    /// What a unit force turns about the steering axis.
    LeverArms,
    /// Rates over travel.
    Bump,
    /// The half-shaft's joints.
    HalfShaft,
    /// The whole axle.
    Axle,
    /// What a rig's steering sweep finds.
    Rig,
    /// What gives way when forces act.
    Compliance,
    /// How near pieces are to each other.
    Space,
}

/// Units of readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// mm
    Millimetre,
    /// °
    Degree,
    /// mm/rad
    MillimetrePerRadian,
    /// °/mm
    DegreePerMillimetre,
    /// A ratio.
    One,
    /// %
    Percent,
    /// m
    Metre,
    /// N·m
    NewtonMetre,
    /// N/mm
    NewtonPerMillimetre,
    /// N·m/°
    NewtonMetrePerDegree,
    /// Hz
    Hertz,
    /// Standard gravity, g
    Gravity,
    /// °/kN
    DegreePerKilonewton,
    /// mm/kN
    MillimetrePerKilonewton,
    /// ° per 100 N·m
    DegreePerHundredNewtonMetres,
}

/// What a reading is read from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject {
    /// The left wheel.
    Wheel,
    /// Both wheels on one road.
    Axle,
    /// The left wheel as a rig turns it: at its travel, whatever the rack.
    Rig,
    /// The left wheel while forces act on both.
    Elastic,
    /// The left wheel with all that is solid round it.
    Space,
}

impl Group {
    /// Its id on the page.
    pub fn id(self) -> &'static str {
        match self {
            Group::Position => "position",
            Group::Wheel => "wheel",
            Group::SteeringAxis => "steering-axis",
            Group::LeverArms => "lever-arms",
            Group::Bump => "bump",
            Group::HalfShaft => "half-shaft",
            Group::Axle => "axle",
            Group::Rig => "rig",
            Group::Compliance => "compliance",
            Group::Space => "space",
        }
    }
}

/// What a column's name ends in, for its unit; longer endings before shorter ones.
const UNITS: [&str; 13] = [
    "_deg_per_100_nm",
    "_deg_per_kn",
    "_mm_per_kn",
    "_mm_per_rad",
    "_deg_per_mm",
    "_nm_per_deg",
    "_n_per_mm",
    "_percent",
    "_deg",
    "_mm",
    "_nm",
    "_hz",
    "_g",
];

impl Reading {
    /// The reading of a column, or of a column without its unit.
    pub fn named(name: &str) -> Option<&'static Reading> {
        READINGS.iter().find(|reading| reading.column == name || reading.short() == name)
    }

    /// What links call it: the column without its unit (`_m` stays: links have carried it since it came).
    pub fn short(&self) -> &'static str {
        UNITS.iter().find_map(|unit| self.column.strip_suffix(unit)).unwrap_or(self.column)
    }

    /// Its name where no heading stands above it.
    pub fn full_name(&self) -> String {
        match self.group {
            Group::LeverArms => format!("{} lever arm", self.name),
            _ => self.name.into(),
        }
    }

    /// What it is read from.
    pub fn subject(&self) -> Subject {
        match self.group {
            Group::Axle => Subject::Axle,
            Group::Rig => Subject::Rig,
            Group::Compliance => Subject::Elastic,
            Group::Space => Subject::Space,
            _ => Subject::Wheel,
        }
    }
}

/// How many there are.
const COUNT: usize = WHEEL.len() + AXLE.len() + RIG.len() + ELASTIC.len() + GAP.len();

/// Every reading, in the order of the table: a wheel's, the whole axle's, a rig's, what gives way, gaps. Columns keep their places: what is
/// new is appended behind all of them, whatever it is read from.
pub static READINGS: [Reading; COUNT] = {
    let parts: [&[Reading]; 5] = [&WHEEL, &AXLE, &RIG, &ELASTIC, &GAP];
    let mut all = [WHEEL[0]; COUNT];
    let (mut count, mut part) = (0, 0);
    while part < parts.len() {
        let mut i = 0;
        while i < parts[part].len() {
            all[count] = parts[part][i];
            count += 1;
            i += 1;
        }
        part += 1;
    }
    all
};
