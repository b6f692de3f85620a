//! Changes of points: where they are at rest, what is locked of them, how well they were measured.

use super::{Edited, hundredth, movable};
use crate::app::refusal::{Coordinate, Refusal};
use crate::document::{Document, MOST_ERROR};
use kernel::{PointId, Vec3};

/// A change of a point.
#[derive(Clone, Debug)]
pub enum Point {
    /// It is moved to rest coordinates, mm, by a hand: as far as it may go.
    Move(PointId, Vec3),
    /// It gets typed rest coordinates, mm, if it may go there.
    Place(PointId, Vec3),
    /// Points get typed rest coordinates, mm, all in one step.
    PlaceAll(Vec<(PointId, Vec3)>),
    /// Locks these coordinates of it and frees its others.
    Lock(PointId, [bool; 3]),
    /// How far it may be off, mm.
    Error(PointId, f64),
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
            Point::PlaceAll(points) => {
                check(document, &points)?;
                for (id, at) in points {
                    if document.ranges(id).contains(&None) {
                        after.kept.push(id);
                    }
                    // A point that is locked altogether is among those kept.
                    let _ = after.put(id, at);
                }
            }
            Point::Lock(id, axes) => after.document.lock(id, axes),
            Point::Error(id, error) if (0.0..=MOST_ERROR).contains(&error) => {
                after.document.set_error(id, hundredth(error));
            }
            Point::Error(id, error) => return Err(Refusal::Measuring(id, error)),
        }
        Ok(after)
    }
}

impl Edited {
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
