//! A list of tape readings as people type it, a line a reading; all numbers in mm.
//!
//! | line | means |
//! | --- | --- |
//! | `1 4 372,5 2` | from point 1 to point 4 it is 372.5 ± 2; the numbers are those of the measuring sheet |
//! | `3f A 250` | from the floor mark below point 3 to the mark A; without ± it is ±2 |
//! | `A at 500 200 0` | the mark A has known coordinates |
//! | `3 z 188 1` | so has point 3, one of them |
//!
//! Cells are apart by blanks, tabs or semicolons; apart by the latter two they may hold a point's name. ± is two standard deviations; ±0 is known exactly.

use super::MOST_ERROR;
use crate::text::number::parse;
use kernel::tape::{End, Tape, What};
use kernel::{LIMIT, Layout, PointId, Vec3, clip};

/// A point of the list.
#[derive(Clone, Debug, PartialEq)]
pub enum Spot {
    /// A point of the layout.
    Point(PointId),
    /// A mark of somebody's own.
    Mark(String),
}

impl Spot {
    /// What it is called.
    pub fn name(&self) -> &str {
        match self {
            Spot::Point(id) => id.name(),
            Spot::Mark(name) => name,
        }
    }
}

/// What is understood of a list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tapes {
    /// The points that it is about.
    pub spots: Vec<Spot>,
    /// The readings, each with its line; a line of known coordinates is three.
    pub readings: Vec<(usize, Tape)>,
    /// What is wrong with other lines, a sentence each.
    pub wrong: Vec<String>,
}

/// Without ±, a reading may be off by so much, mm.
const USUAL: f64 = 2.0;

/// What is known exactly is off by so much, mm: nothing that a tape could tell, and something to divide by.
const EXACT: f64 = 0.02;

/// Standard deviations in a ±.
pub const SIGMAS: f64 = 2.0;

/// More lines than this are not read.
const MOST_LINES: usize = 400;

/// What can be measured along a coordinate.
const AXES: [&str; 3] = ["x", "y", "z"];

/// Longest name of a mark, characters.
const LONGEST: usize = 20;

impl Tapes {
    /// Reads a list.
    pub fn read(text: &str, layout: &Layout) -> Tapes {
        let mut tapes = Tapes::default();
        let ids: Vec<PointId> = layout.points().map(|(id, _)| id).collect();
        let lines = text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty());
        for (at, line) in lines.take(MOST_LINES) {
            if tapes.line(at + 1, line, &ids).is_none() {
                let (line, says) = (at + 1, clip(line));
                tapes.wrong.push(format!("Line {line}, “{says}”, is no reading: type from, to, mm and maybe ±."));
            }
        }
        tapes
    }

    fn line(&mut self, line: usize, text: &str, ids: &[PointId]) -> Option<()> {
        let cells = cells(text);
        let (from, to) = (*cells.first()?, *cells.get(1)?);
        let numbers: Vec<f64> = cells[2..].iter().map(|cell| parse(cell)).collect::<Option<_>>()?;
        if to.eq_ignore_ascii_case("at") {
            let (values, error) = (numbers.get(..3)?, numbers.get(3).copied());
            let [x, y, z] = [values[0], values[1], values[2]];
            let sound = numbers.len() <= 4 && Tapes::fits([x, y, z].into_iter(), error.unwrap_or(0.0));
            let point = sound.then(|| self.end(from, ids)).flatten().filter(|end| !end.on_floor)?.point;
            for (axis, value) in [x, y, z].into_iter().enumerate() {
                self.push(line, What::Coordinate(point, axis), value, error.unwrap_or(0.0));
            }
            return Some(());
        }
        let (value, error) = (*numbers.first()?, numbers.get(1).copied().unwrap_or(USUAL));
        if numbers.len() > 2 || !Tapes::fits(std::iter::once(value), error) {
            return None;
        }
        let known = self.spots.len();
        let what = match AXES.iter().position(|axis| to.eq_ignore_ascii_case(axis)) {
            Some(axis) => {
                let end = self.end(from, ids).filter(|end| !end.on_floor);
                end.map(|end| What::Coordinate(end.point, axis))
            }
            None => match [self.end(from, ids), self.end(to, ids)] {
                [Some(a), Some(b)] if a != b && value >= 0.0 => Some(What::Distance([a, b])),
                _ => None,
            },
        };
        if what.is_none() {
            // Names that stand in no other line are of nothing.
            self.spots.truncate(known);
        }
        self.push(line, what?, value, error);
        Some(())
    }

    fn fits(mut values: impl Iterator<Item = f64>, error: f64) -> bool {
        values.all(|value| value.abs() <= LIMIT) && (0.0..=MOST_ERROR).contains(&error)
    }

    fn push(&mut self, line: usize, what: What, value: f64, error: f64) {
        self.readings.push((line, Tape { what, value, error: error.max(EXACT) / SIGMAS }));
    }

    /// The end that a cell names: a number of the sheet, with an f behind it the floor mark below it; a point's name; a mark of one's own.
    fn end(&mut self, cell: &str, ids: &[PointId]) -> Option<End> {
        let number = |text: &str| text.parse::<usize>().ok().and_then(|at| ids.get(at.checked_sub(1)?)).copied();
        let floor = cell.strip_suffix(['f', 'F']).and_then(number);
        if let Some(id) = floor {
            return Some(End::below(self.spot(Spot::Point(id))));
        }
        let named = || ids.iter().copied().find(|id| id.name().eq_ignore_ascii_case(cell));
        let mark = || {
            let own = cell.starts_with(char::is_alphabetic) && cell.chars().count() <= LONGEST;
            let free = !AXES.iter().any(|axis| cell.eq_ignore_ascii_case(axis));
            (own && free).then(|| Spot::Mark(clip(cell)))
        };
        let spot = number(cell).or_else(named).map(Spot::Point).or_else(mark)?;
        Some(End::at(self.spot(spot)))
    }

    /// A point's place in the list, where it stands from now on.
    fn spot(&mut self, spot: Spot) -> usize {
        self.spots.iter().position(|other| *other == spot).unwrap_or_else(|| {
            self.spots.push(spot);
            self.spots.len() - 1
        })
    }

    /// Where each point is thought to be, mm: of the layout where that has it; a mark where its coordinates say, and as far as they say nothing on
    /// the floor amid the points that it was measured to.
    pub fn thought(&self, layout: &Layout) -> Vec<Vec3> {
        let known = |spot: &Spot| match spot {
            Spot::Point(id) => layout.point(*id),
            Spot::Mark(_) => None,
        };
        let place = |(at, spot): (usize, &Spot)| {
            known(spot).unwrap_or_else(|| {
                let others = self.readings.iter().filter_map(|(_, tape)| match tape.what {
                    What::Distance([a, b]) if a.point == at => known(&self.spots[b.point]),
                    What::Distance([a, b]) if b.point == at => known(&self.spots[a.point]),
                    _ => None,
                });
                let others: Vec<Vec3> = others.collect();
                let middle = others.iter().sum::<Vec3>() / others.len().max(1) as f64;
                let mut place = Vec3::new(middle.x, middle.y, 0.0);
                for (_, tape) in &self.readings {
                    if let What::Coordinate(point, axis) = tape.what
                        && point == at
                    {
                        place[axis] = tape.value;
                    }
                }
                place
            })
        };
        self.spots.iter().enumerate().map(place).collect()
    }

    /// What an end is called: the floor mark below a point is that point's.
    pub fn name(&self, end: End) -> String {
        let name = self.spots.get(end.point).map_or("", Spot::name);
        if end.on_floor { format!("floor below the {name}") } else { name.to_string() }
    }
}

/// A line's cells, without the commas that may stand behind them.
fn cells(line: &str) -> Vec<&str> {
    let parted: Vec<&str> = match ['\t', ';'].into_iter().find(|sign| line.contains(*sign)) {
        Some(sign) => line.split(sign).collect(),
        None => line.split_whitespace().collect(),
    };
    let cells = parted.into_iter().map(|cell| cell.trim().trim_end_matches(',').trim_start_matches('±'));
    cells.filter(|cell| !cell.is_empty()).collect()
}
