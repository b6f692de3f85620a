//! The alignment sheet: what a printout says of both wheels before and after work, how well it is known, and what is wanted. Plain numbers in
//! degrees and mm, whatever they were typed in; an empty cell is `None`.

use crate::text::number::Units;
use crate::text::printout::Scale;
use kernel::LeftOrRight;
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
    /// Every row with its name, as the sheet has them.
    pub const ALL: [(Row, &'static str); 6] = [
        (Row::Toe, "Toe, one wheel"),
        (Row::Camber, "Camber"),
        (Row::Caster, "Caster by sweep"),
        (Row::Inclination, "Inclination by sweep"),
        (Row::Included, "Included angle"),
        (Row::Height, "Ride height"),
    ];

    /// The error of a value where none is typed, one standard deviation: degrees of a rig's heads, mm of a tape (common practice, from memory).
    pub fn usual_error(self) -> f64 {
        match self {
            Row::Toe => 0.02,
            Row::Camber => 0.03,
            Row::Caster | Row::Inclination | Row::Included => 0.1,
            Row::Height => 2.0,
        }
    }
}

/// A cell of a row; of two numbers, the first is the left one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cell {
    /// The error of the row's values.
    Error,
    /// The least (0) or the most (1) that is wanted.
    Wanted(usize),
    /// A wheel's value before work.
    Before(LeftOrRight),
    /// And after it.
    After(LeftOrRight),
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

impl Line {
    /// A cell, to be read or written.
    pub fn cell(&mut self, cell: Cell) -> &mut Option<f64> {
        match cell {
            Cell::Error => &mut self.error,
            Cell::Wanted(end) => &mut self.wanted[end.min(1)],
            Cell::Before(side) => &mut self.before[side.index()],
            Cell::After(side) => &mut self.after[side.index()],
        }
    }
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

    /// What stands in a cell.
    pub fn cell(&self, row: Row, cell: Cell) -> Option<f64> {
        *self.line(row).cell(cell)
    }

    /// Writes a cell.
    pub fn set(&mut self, row: Row, cell: Cell, value: Option<f64>) {
        let mut line = self.line(row);
        *line.cell(cell) = value;
        if line == Line::default() {
            self.lines.remove(&row);
        } else {
            self.lines.insert(row, line);
        }
    }

    /// The error of a row's values.
    pub fn error(&self, row: Row) -> f64 {
        self.line(row).error.unwrap_or(row.usual_error())
    }

    /// What a row is written in.
    pub fn scale(&self, row: Row, units: Units) -> Scale {
        match (row, self.rim) {
            (Row::Height, _) => Scale::Length(units),
            (Row::Toe, Some(diameter)) => Scale::Rim(diameter),
            _ if self.minutes => Scale::Minutes,
            _ => Scale::Degrees,
        }
    }

    /// The travel, mm, that a height means; and the other way round, since both are taken from the arch's. `None` while nobody has said what the
    /// height is at travel 0.
    pub fn travel(&self, height: f64) -> Option<f64> {
        if self.arch { self.arch_at_design.map(|design| design - height) } else { Some(height) }
    }

    /// Both wheels' toe together, typed: one wheel's half for each where neither has a value; else what is lacking is shared by both.
    pub fn set_total_toe(&mut self, cells: [Cell; 2], total: f64) {
        let now = cells.map(|cell| self.cell(Row::Toe, cell));
        let lacks = total - now.iter().flatten().sum::<f64>();
        for (cell, now) in cells.into_iter().zip(now) {
            self.set(Row::Toe, cell, Some(now.unwrap_or(0.0) + lacks / 2.0));
        }
    }
}
