//! The alignment sheet: what a printout says of both wheels before and after work, how well it is known, and what is wanted. Plain numbers in
//! degrees and mm, whatever they were typed in; an empty cell is `None`.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// A row of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Row {
    /// Toe of one wheel, degrees, toe-in positive.
    Toe,
    /// Camber, degrees, positive when the wheel's top leans out of the car.
    Camber,
    /// Caster as a rig finds it, degrees.
    Caster,
    /// Kingpin inclination as a rig finds it, degrees.
    Inclination,
    /// Inclination by sweep and camber together, degrees.
    Included,
    /// Ride height, mm: travel, or arch to hub.
    Height,
}

impl Row {
    /// Every row, as the sheet has them.
    pub const ALL: [Row; 6] = [Row::Toe, Row::Camber, Row::Caster, Row::Inclination, Row::Included, Row::Height];
}

/// What stands in a row; two numbers are left and right, or least and most.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Line {
    /// Error of each value, one standard deviation; a usual one where nothing is typed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub error: Option<f64>,
    /// The range that is wanted, least and most.
    #[serde(skip_serializing_if = "empty")]
    pub wanted: [Option<f64>; 2],
    /// Left and right before work.
    #[serde(skip_serializing_if = "empty")]
    pub before: [Option<f64>; 2],
    /// Left and right after it.
    #[serde(skip_serializing_if = "empty")]
    pub after: [Option<f64>; 2],
}

fn empty(cells: &[Option<f64>; 2]) -> bool {
    *cells == [None; 2]
}

/// The sheet.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Alignment {
    /// What the car is called here.
    pub car: String,
    /// The day of the work, as ISO 8601 writes it.
    pub date: String,
    /// Angles are shown in degrees and minutes, not in degrees alone.
    pub minutes: bool,
    /// Toe is shown in mm at a rim of this diameter, mm, not as an angle.
    pub rim: Option<f64>,
    /// Heights are from the arch down to the hub, not travels.
    pub arch: bool,
    /// What such a height is at travel 0, mm.
    pub arch_at_design: Option<f64>,
    /// The rows in which something is typed.
    pub lines: BTreeMap<Row, Line>,
}

impl Alignment {
    /// What stands in a row.
    pub fn line(&self, row: Row) -> Line {
        self.lines.get(&row).copied().unwrap_or_default()
    }
}
