//! The one table of readings: page, curves, table, links and comparison all read it.

mod axle;
pub mod table;
mod wheel;
mod whole;

pub use axle::AXLE_READINGS;
pub use wheel::READINGS;
pub use whole::Whole;

use crate::state::State;

/// A quantity that can be read from a state, of one wheel or of what `S` says.
#[derive(Clone, Copy)]
pub struct Reading<S: 'static = State> {
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
    pub value: fn(&S) -> Option<f64>,
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
}

impl Reading {
    /// The reading of a column name.
    pub fn named(column: &str) -> Option<&'static Reading> {
        READINGS.iter().find(|reading| reading.column == column)
    }
}

/// What a column's name ends in, for its unit.
const UNITS: [&str; 10] =
    ["_mm_per_rad", "_deg_per_mm", "_nm_per_deg", "_n_per_mm", "_percent", "_deg", "_mm", "_nm", "_hz", "_g"];

impl<S> Reading<S> {
    /// What links call it: the column without its unit (`_m` stays: links have carried it since it came).
    pub fn short(&self) -> &'static str {
        UNITS.iter().find_map(|unit| self.column.strip_suffix(unit)).unwrap_or(self.column)
    }
}
