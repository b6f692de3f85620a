//! A table of readings measured on a car at several heights, as people type or paste it, and what its columns mean: joints are fitted to it.
//!
//! Cells are apart by tabs, else by semicolons, else by blanks (a comma is a decimal sign there), else by commas. The lines before the first one with
//! numbers are headings. A blank cell, or a dash, was not measured.
//! Long because a table's text, its columns and its values are one thing.

use super::alignment::Row;
use crate::text::number::{Units, parse};
use crate::text::printout::Scale;
use kernel::vary::Quantity;
use kernel::{LIMIT, Unit, clip};
use serde::{Deserialize, Serialize};

/// The table.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Fitting {
    /// As it is typed.
    pub text: String,
    /// What was said of the columns, from the first one on; of others the headings say it.
    pub columns: Vec<Column>,
    /// What the arch is above the hub at travel 0, mm, for heights told so.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub arch_at_design: Option<f64>,
    /// The rim at which mm of toe are meant, mm; a usual one where nothing is typed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rim: Option<f64>,
    /// The right wheel was measured, not the left.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub right: bool,
}

/// A column.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Column {
    /// `travel`, `arch`, `rack`, or the name of a reading; nothing where it is not used.
    pub means: String,
    /// What plain numbers of it are in.
    pub unit: In,
    /// How far its values may be off, one standard deviation, in its unit; a usual error where nothing is typed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub error: Option<f64>,
}

/// What plain numbers are in; lengths are in mm.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum In {
    /// Degrees, or mm for a length.
    #[default]
    Degrees,
    /// Minutes of arc.
    Minutes,
    /// mm at the rim, for toe.
    Rim,
}

/// A value of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// Its line and its column, from 1 on.
    pub at: [usize; 2],
    /// What was read.
    pub reading: &'static str,
    /// Travel and rack, mm.
    pub place: [f64; 2],
    /// What was measured and its error, in the reading's own unit.
    pub value: [f64; 2],
}

/// What tells a height: as the wheel's travel, or from the arch down to the hub.
pub const TRAVEL: &str = "travel";
/// See above.
pub const ARCH: &str = "arch";
/// What tells the rack.
pub const RACK: &str = "rack";

/// The rim until another is typed, mm, as on the alignment sheet.
pub const RIM: f64 = 400.0;

/// Longest table, characters, and most lines.
pub const LONGEST: usize = 20_000;
const MOST_LINES: usize = 400;

/// Words of headings, and what they mean.
const WORDS: [(&str, &str); 9] = [
    ("toe", "toe_deg"),
    ("camber", "camber_deg"),
    ("caster", "caster_deg"),
    ("inclination", "kingpin_inclination_deg"),
    ("rack", RACK),
    ("arch", ARCH),
    ("travel", TRAVEL),
    ("bump", TRAVEL),
    ("height", TRAVEL),
];

/// What columns without a heading are taken for, from the first on.
const UNNAMED: [&str; 3] = [TRAVEL, "toe_deg", "camber_deg"];

/// Usual errors of readings that no alignment sheet has: degrees and mm (common practice, from memory).
const USUAL_ANGLE: f64 = 0.1;
const USUAL_LENGTH: f64 = 1.0;

/// Minutes in a degree.
const MINUTES: f64 = 60.0;

impl Column {
    /// One that means this, in degrees or mm.
    pub fn of(means: &str) -> Column {
        Column { means: means.into(), ..Column::default() }
    }

    /// The reading that it tells.
    pub fn quantity(&self) -> Option<Quantity> {
        Quantity::named(&self.means)
    }

    /// True if it can be in degrees or minutes.
    pub fn is_angle(&self) -> bool {
        self.quantity().is_some_and(|quantity| quantity.reading().unit == Unit::Degree)
    }

    /// How far its values may be off, in the reading's unit.
    fn error(&self, rim: f64) -> f64 {
        match (self.error, self.unit) {
            (Some(error), In::Minutes) if self.is_angle() => error / MINUTES,
            (Some(error), In::Rim) if self.is_angle() => (error / rim).to_degrees(),
            (Some(error), _) => error,
            (None, _) => self.usual_error(),
        }
    }

    fn usual_error(&self) -> f64 {
        match &*self.means {
            "toe_deg" => Row::Toe.usual_error(),
            "camber_deg" => Row::Camber.usual_error(),
            _ if self.is_angle() => USUAL_ANGLE,
            _ => USUAL_LENGTH,
        }
    }

    /// The same in its own unit: what its box shows.
    pub fn shown_error(&self, rim: f64) -> f64 {
        let error = self.error(rim);
        match self.unit {
            In::Minutes if self.is_angle() => error * MINUTES,
            In::Rim if self.is_angle() => rim * error.to_radians(),
            _ => error,
        }
    }

    /// The value of a cell.
    fn read(&self, text: &str, rim: f64) -> Option<f64> {
        match self.unit {
            In::Rim if self.is_angle() => Scale::Rim(rim).read(text),
            In::Minutes if self.is_angle() => match parse(text) {
                Some(minutes) => Some(minutes / MINUTES),
                None => Scale::Minutes.read(text),
            },
            _ if self.is_angle() => Scale::Degrees.read(text),
            _ => Scale::Length(Units::default()).read(text).or_else(|| parse(text)),
        }
    }
}

/// A line's cells, with its number.
type Line<'a> = (usize, Vec<&'a str>);

impl Fitting {
    /// The rim at which toe is told in mm, mm.
    pub fn rim(&self) -> f64 {
        self.rim.unwrap_or(RIM)
    }

    /// Lines that have something in them, cut into cells.
    fn lines(&self) -> Vec<Line<'_>> {
        let has = |sign: char| self.text.lines().any(|line| line.trim().contains(sign));
        let numbers = |line: &str| line.split_whitespace().filter(|word| parse(word).is_some()).count();
        let cut: fn(&str) -> Vec<&str> = if has('\t') {
            |line| line.split('\t').collect()
        } else if has(';') {
            |line| line.split(';').collect()
        } else if self.text.lines().any(|line| numbers(line) > 1) {
            |line| line.split_whitespace().collect()
        } else {
            |line| line.split(',').collect()
        };
        let lines = self.text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty());
        lines.map(|(at, line)| (at + 1, cut(line).into_iter().map(str::trim).collect())).collect()
    }

    /// How many lines at the beginning are headings: those without any number.
    fn headings(lines: &[Line]) -> usize {
        let plain = |cell: &&str| parse(cell).is_some() || Scale::Minutes.read(cell).is_some();
        lines.iter().position(|(_, cells)| cells.iter().any(plain)).unwrap_or(lines.len())
    }

    /// What all columns mean: as was said, else as the headings say, else as they usually stand.
    pub fn columns(&self) -> Vec<Column> {
        let lines = self.lines();
        let headings = Fitting::headings(&lines);
        let width = lines[headings..].iter().map(|(_, cells)| cells.len()).max().unwrap_or_default();
        let heading = |at: usize| -> String {
            lines[..headings]
                .iter()
                .filter_map(|(_, cells)| cells.get(at))
                .map(|cell| cell.to_lowercase() + " ")
                .collect()
        };
        let guessed = |at: usize| {
            if headings == 0 {
                return Column::of(UNNAMED.get(at).copied().unwrap_or_default());
            }
            let heading = heading(at);
            let means = WORDS.iter().find(|(word, _)| heading.contains(word)).map_or("", |(_, means)| means);
            let column = Column::of(means);
            let unit = match column.is_angle() {
                true if heading.contains('′') || heading.contains('\'') || heading.contains("min") => In::Minutes,
                true if means == "toe_deg" && heading.contains("mm") => In::Rim,
                _ => In::Degrees,
            };
            Column { unit, ..column }
        };
        (0..width).map(|at| self.columns.get(at).cloned().unwrap_or_else(|| guessed(at))).collect()
    }

    /// What stands above a column; its number where nothing does.
    pub fn heading(&self, at: usize) -> String {
        let lines = self.lines();
        let words: Vec<&str> =
            lines[..Fitting::headings(&lines)].iter().filter_map(|(_, cells)| cells.get(at).copied()).collect();
        let words = words.join(" ");
        if words.trim().is_empty() { format!("column {}", at + 1) } else { clip(words.trim()) }
    }

    /// The values; what is wrong first is one sentence.
    pub fn values(&self) -> Result<Vec<Value>, String> {
        let (lines, columns) = (self.lines(), self.columns());
        if lines.len() > MOST_LINES {
            return Err(format!("The table has {} lines; {MOST_LINES} are read at most.", lines.len()));
        }
        let lines = &lines[Fitting::headings(&lines)..];
        if lines.is_empty() {
            return Err("The table contains no numbers yet.".into());
        }
        let find = |means: &str| columns.iter().position(|column| column.means == means);
        let twice =
            (0..columns.len()).find(|at| !columns[*at].means.is_empty() && find(&columns[*at].means) != Some(*at));
        if let Some(at) = twice {
            return Err(format!("Column {} means the same as one before it: choose what each column is.", at + 1));
        }
        if find(TRAVEL).is_none() && find(ARCH).is_none() {
            return Err("No column is chosen as the height of the wheel: choose one.".into());
        }
        if !columns.iter().any(|column| column.quantity().is_some()) {
            return Err("No column is chosen as a reading, toe or camber say: choose one.".into());
        }
        let mut values = Vec::new();
        for (line, cells) in lines {
            self.line(*line, cells, &columns, &mut values)?;
        }
        if values.is_empty() { Err("The table has heights, but no reading yet.".into()) } else { Ok(values) }
    }

    fn line(&self, line: usize, cells: &[&str], columns: &[Column], values: &mut Vec<Value>) -> Result<(), String> {
        let blank = |cell: &str| matches!(cell, "" | "-" | "–" | "—");
        let number = |at: usize| {
            let cell = cells.get(at).copied().filter(|cell| !blank(cell));
            let read = |cell: &str| {
                let value = columns[at].read(cell, self.rim()).filter(|value| value.abs() <= LIMIT);
                value.ok_or_else(|| {
                    format!("Row {line}, column {}: “{}” is not a number that can be meant.", at + 1, clip(cell))
                })
            };
            cell.map(read).transpose()
        };
        let of = |means: &str| match columns.iter().position(|column| column.means == means) {
            Some(at) => number(at),
            None => Ok(None),
        };
        let travel = match (of(TRAVEL)?, of(ARCH)?) {
            (Some(travel), _) => Some(travel),
            (None, Some(arch)) => {
                let design = self
                    .arch_at_design
                    .ok_or("Type what the arch is above the hub at travel 0; then heights are travels.")?;
                Some(design - arch)
            }
            (None, None) => None,
        };
        let rack = of(RACK)?.unwrap_or_default();
        for (at, column) in columns.iter().enumerate() {
            let Some(quantity) = column.quantity() else { continue };
            let Some(value) = number(at)? else { continue };
            let travel = travel.ok_or_else(|| format!("Row {line} has no height of the wheel."))?;
            let error = column.error(self.rim());
            if error.is_nan() || error <= 0.0 {
                return Err(format!("Column {}: its error must be more than 0.", at + 1));
            }
            values.push(Value {
                at: [line, at + 1],
                reading: quantity.column(),
                place: [travel, rack],
                value: [value, error],
            });
        }
        Ok(())
    }
}
