//! Changes of what was measured on a car, until it is taken into the axle.

use super::{Edited, Point, hundredth};
use crate::app::refusal::Refusal;
use crate::document::{Document, MOST_ERROR, Measured};
use crate::study::Taped;
use kernel::{LIMIT, PointId};

/// A change of what was measured.
#[derive(Clone, Debug)]
pub enum Measure {
    /// A number of a point's row on the measuring sheet (0 to 3: x, y, z, ±), mm; or none.
    Cell(PointId, usize, Option<f64>),
    /// Several numbers at once; those that a row lacks stay.
    Fill(Vec<Measured>),
    /// The rows become part of the axle; they are not needed any more then.
    Take,
    /// The rows are blank again.
    Blank,
    /// The list of tape readings, as it is typed.
    Tapes(String),
    /// The points that the tape readings give become part of the axle, with how far they may be off.
    TakeTapes,
    /// The joints that fit measured readings become part of the axle, with camber and toe at rest, degrees.
    TakeFit(Vec<Measured>, [f64; 2]),
}

/// Longest list of tape readings, characters.
const LONGEST_LIST: usize = 20_000;

impl Measure {
    /// The document after it.
    pub fn on(self, document: &Document) -> Result<Edited, Refusal> {
        let mut after = document.clone();
        match self {
            Measure::Cell(point, column, value) => {
                let row = after.papers.measuring.of(point).with(column, value.map(hundredth));
                check(&row)?;
                after.papers.measuring.fill(row);
            }
            Measure::Fill(rows) => {
                for row in rows {
                    check(&row)?;
                    let numbers = row.numbers().into_iter().enumerate().filter(|(_, number)| number.is_some());
                    let filled = numbers.fold(after.papers.measuring.of(row.point), |filled, (column, number)| {
                        filled.with(column, number.map(hundredth))
                    });
                    after.papers.measuring.fill(filled);
                }
            }
            Measure::Take => {
                let rows = after.papers.measuring.points.iter().copied();
                let rows = rows.filter(|row| document.layout.point(row.point).is_some()).collect();
                after.papers.measuring.points.clear();
                return Point::PlaceAll(rows).on(&after);
            }
            Measure::Tapes(text) => {
                after.papers.measuring.tapes = text.chars().take(LONGEST_LIST).collect();
            }
            Measure::TakeTapes => {
                return Point::PlaceAll(Taped::of(document).measured()).on(&after);
            }
            Measure::TakeFit(rows, [camber, toe]) => {
                let mut taken = Point::PlaceAll(rows).on(&after)?;
                if !document.sealed() {
                    let wheel = &mut taken.document.layout.wheel;
                    (wheel.camber, wheel.toe) = (ten_thousandth(camber), ten_thousandth(toe));
                }
                return Ok(taken);
            }
            Measure::Blank => after.papers.measuring.points.clear(),
        }
        Ok(after.into())
    }
}

/// To the ten-thousandth of a degree that a link carries.
fn ten_thousandth(degrees: f64) -> f64 {
    (degrees * 1e4).round() / 1e4
}

/// Refuses numbers that no joint of a car has.
fn check(row: &Measured) -> Result<(), Refusal> {
    if let Some(value) = row.at.into_iter().flatten().find(|mm| mm.abs() > LIMIT) {
        return Err(Refusal::Measured(row.point, value));
    }
    match row.error.filter(|error| !(0.0..=MOST_ERROR).contains(error)) {
        Some(error) => Err(Refusal::Measuring(row.point, error)),
        None => Ok(()),
    }
}
