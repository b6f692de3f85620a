//! Changes of points: where they are at rest, what is locked of them, how well they were measured.

use super::{Edited, hundredth, movable};
use crate::app::refusal::{Coordinate, Refusal};
use crate::document::{Document, MOST_ERROR, Measured};
use kernel::{PointId, Vec3};

/// A change of a point.
#[derive(Clone, Debug)]
pub enum Point {
    /// It is moved to rest coordinates, mm, by a hand: as far as it may go.
    Move(PointId, Vec3),
    /// It gets typed rest coordinates, mm, if it may go there.
    Place(PointId, Vec3),
    /// Points get typed rest coordinates, mm, and how far they may be off, as far as these are known, all in one step.
    PlaceAll(Vec<Measured>),
    /// Locks these coordinates of it and frees its others.
    Lock(PointId, [bool; 3]),
    /// How far it may be off, mm.
    Error(PointId, f64),
    /// Every joint may be off so far, mm.
    ErrorOfJoints(f64),
}

impl Point {
    /// The document after it.
    pub fn on(self, document: &Document) -> Result<Edited, Refusal> {
        let mut after = Edited::from(document.clone());
        match self {
            Point::Move(id, at) => after.put(id, at)?,
            Point::Place(id, at) => {
                check(document, &[(id, at)])?;
                after.put(id, at)?;
            }
            Point::PlaceAll(rows) => after.put_all(&rows)?,
            Point::Lock(id, axes) => after.document.lock(id, axes),
            Point::Error(id, error) if (0.0..=MOST_ERROR).contains(&error) => {
                after.document.set_error(id, hundredth(error));
            }
            Point::Error(id, error) => return Err(Refusal::Measuring(id, error)),
            Point::ErrorOfJoints(error) => {
                let error = error.clamp(0.0, MOST_ERROR);
                let joints = document.layout.points().map(|(id, _)| id).filter(|id| id.is_joint());
                joints.for_each(|id| after.document.set_error(id, hundredth(error)));
            }
        }
        Ok(after)
    }
}

impl Edited {
    /// Puts points where they were measured; what is locked of them stays.
    fn put_all(&mut self, rows: &[Measured]) -> Result<(), Refusal> {
        let document = &self.document;
        let placed = |row: &Measured| Some((row.point, row.over(document.layout.point(row.point)?)));
        let points: Vec<(PointId, Vec3)> = rows.iter().filter_map(placed).collect();
        check(document, &points)?;
        for row in rows {
            let error = row.error.unwrap_or_default();
            if !(0.0..=MOST_ERROR).contains(&error) {
                return Err(Refusal::Measuring(row.point, error));
            }
        }
        let locked = |row: &&Measured| {
            let ranges = self.document.ranges(row.point);
            (0..3).any(|axis| ranges[axis].is_none() && row.at[axis].is_some())
        };
        self.kept = rows.iter().filter(locked).map(|row| row.point).collect();
        for (id, at) in points {
            // A point that is locked altogether is among those kept.
            let _ = self.put(id, at);
        }
        for (point, error) in rows.iter().filter_map(|row| Some((row.point, row.error?))) {
            self.document.set_error(point, hundredth(error));
        }
        Ok(())
    }

    /// Puts a point at rest coordinates, as far as it may go; coordinates that are locked stay, and coordinates that are no numbers are not taken.
    fn put(&mut self, id: PointId, at: Vec3) -> Result<(), Refusal> {
        if !at.iter().all(|x| x.is_finite()) {
            return Ok(());
        }
        let ranges = movable(&self.document, id)?;
        self.moved = Some(id);
        if let Some(point) = self.document.layout.point_mut(id) {
            for (axis, range) in ranges.into_iter().enumerate() {
                if let Some([least, most]) = range {
                    point[axis] = hundredth(at[axis]).clamp(least, most);
                }
            }
        }
        Ok(())
    }
}

/// Refuses typed coordinates beyond where their points may go: of each point the first.
fn check(document: &Document, points: &[(PointId, Vec3)]) -> Result<(), Refusal> {
    let beyond = |(point, at): &(PointId, Vec3)| {
        let (now, ranges) = (document.layout.point(*point)?, document.ranges(*point));
        (0..3).find_map(|axis| {
            let range = ranges[axis].filter(|[least, most]| !(*least..=*most).contains(&at[axis]))?;
            (at[axis] != now[axis]).then_some(Coordinate { point: *point, axis, value: at[axis], range })
        })
    };
    let beyond: Vec<Coordinate> = points.iter().filter_map(beyond).collect();
    if beyond.is_empty() { Ok(()) } else { Err(Refusal::Coordinates(beyond)) }
}
