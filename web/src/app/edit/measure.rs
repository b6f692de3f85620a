//! Changes of what was measured on a car, until it is taken into the axle.

use super::{Edited, Point, hundredth};
use crate::app::refusal::Refusal;
use crate::document::{Document, MOST_ERROR, Measured};
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
}

impl Measure {
    /// The document after it.
    pub fn on(self, document: &Document) -> Result<Edited, Refusal> {
        let mut after = document.clone();
        match self {
            Measure::Cell(point, column, value) => {
                let row = after.measuring.of(point).with(column, value.map(hundredth));
                check(&row)?;
                after.measuring.fill(row);
            }
            Measure::Fill(rows) => {
                for row in rows {
                    check(&row)?;
                    let numbers = row.numbers().into_iter().enumerate().filter(|(_, number)| number.is_some());
                    let filled = numbers.fold(after.measuring.of(row.point), |filled, (column, number)| {
                        filled.with(column, number.map(hundredth))
                    });
                    after.measuring.fill(filled);
                }
            }
            Measure::Take => {
                let rows = after.measuring.points.iter().copied();
                let rows = rows.filter(|row| document.layout.point(row.point).is_some()).collect();
                after.measuring.points.clear();
                return Point::PlaceAll(rows).on(&after);
            }
            Measure::Blank => after.measuring.points.clear(),
        }
        Ok(after.into())
    }
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
