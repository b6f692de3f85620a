//! Points, and what was read of them.

use crate::frame::Vec3;
use crate::layout::LIMIT;
use nalgebra::{DMatrix, DVector};
use std::fmt;

/// An end of the tape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct End {
    /// The point, by its place in the network's list.
    pub point: usize,
    /// Not at the point itself, but at the mark below it on the floor (z = 0).
    pub on_floor: bool,
}

/// What was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// The distance between two ends.
    Distance([End; 2]),
    /// A coordinate of a point that is known: the point, and 0, 1, 2 for x, y, z.
    Coordinate(usize, usize),
}

/// A reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tape {
    /// What was read.
    pub what: What,
    /// What it is, mm.
    pub value: f64,
    /// Its standard deviation, mm.
    pub error: f64,
}

/// Points, where they are thought to be, mm, and readings.
#[derive(Clone, Debug, PartialEq)]
pub struct Network {
    points: Vec<Vec3>,
    tapes: Vec<Tape>,
}

/// At most so many points, and ten times as many readings: more are no axle, and would take long.
pub const MOST: usize = 60;

/// No reading is better than this, mm: a nanometre; squares of what is left over it are still numbers.
const FINEST: f64 = 1e-6;

/// Why there is no network; its `Display` is a sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Too many points or readings.
    TooMany,
    /// A point is nowhere, or further away than any point of an axle.
    Point(usize),
    /// A reading is of no point, of a distance from an end to itself, of no size that can be, or has no error.
    Tape(usize),
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::TooMany => write!(f, "At most {MOST} points and {} readings can be used.", 10 * MOST),
            Fault::Point(at) => write!(f, "Point {} is nowhere near an axle.", at + 1),
            Fault::Tape(at) => write!(f, "Reading {} can’t be.", at + 1),
        }
    }
}

impl std::error::Error for Fault {}

/// The direction in which two ends that lie together are taken to be apart: any will do to start with.
const ANY: Vec3 = Vec3::new(1.0, 0.0, 0.0);

/// Ends nearer than this lie together, mm.
const TOGETHER: f64 = 1e-9;

impl End {
    /// The point itself.
    pub fn at(point: usize) -> End {
        End { point, on_floor: false }
    }

    /// The mark below it.
    pub fn below(point: usize) -> End {
        End { point, on_floor: true }
    }

    /// A·p.
    fn seen(self, p: Vec3) -> Vec3 {
        if self.on_floor { Vec3::new(p.x, p.y, 0.0) } else { p }
    }
}

impl Network {
    /// A network, if everything can be.
    pub fn new(points: Vec<Vec3>, tapes: Vec<Tape>) -> Result<Network, Fault> {
        if points.len() > MOST || tapes.len() > 10 * MOST {
            return Err(Fault::TooMany);
        }
        let near = |x: f64| x.abs() <= LIMIT;
        if let Some(at) = points.iter().position(|p| !p.iter().all(|x| near(*x))) {
            return Err(Fault::Point(at));
        }
        let sound = |tape: &Tape| {
            let of_points = match tape.what {
                What::Distance([a, b]) => a != b && a.point.max(b.point) < points.len() && tape.value >= 0.0,
                What::Coordinate(point, axis) => point < points.len() && axis < 3,
            };
            of_points && near(tape.value) && (FINEST..=LIMIT).contains(&tape.error)
        };
        match tapes.iter().position(|tape| !sound(tape)) {
            Some(at) => Err(Fault::Tape(at)),
            None => Ok(Network { points, tapes }),
        }
    }

    /// Where the points are thought to be, mm.
    pub fn points(&self) -> &[Vec3] {
        &self.points
    }

    /// The readings.
    pub fn tapes(&self) -> &[Tape] {
        &self.tapes
    }

    /// The same without a reading.
    pub(super) fn without(&self, tape: usize) -> Network {
        let mut network = self.clone();
        network.tapes.remove(tape);
        network
    }

    /// What a reading would be with the points at places, and its derivative by the coordinates of each point that it is of.
    pub(super) fn read(&self, what: What, places: &[Vec3]) -> (f64, Vec<(usize, Vec3)>) {
        match what {
            What::Coordinate(point, axis) => (places[point][axis], vec![(point, Vec3::ith(axis, 1.0))]),
            What::Distance(ends) => {
                let [a, b] = ends.map(|end| end.seen(places[end.point]));
                let length = (a - b).norm();
                let along = if length > TOGETHER { (a - b) / length } else { ANY };
                (length, vec![(ends[0].point, ends[0].seen(along)), (ends[1].point, -ends[1].seen(along))])
            }
        }
    }

    /// (f − value)/σ of every reading, and J, for coordinates in the order of the points.
    pub(super) fn model(&self, coordinates: &[f64]) -> (DVector<f64>, DMatrix<f64>) {
        let places = places(coordinates);
        let mut left = DVector::zeros(self.tapes.len());
        let mut slopes = DMatrix::zeros(self.tapes.len(), coordinates.len());
        for (row, tape) in self.tapes.iter().enumerate() {
            let (is, by) = self.read(tape.what, &places);
            left[row] = (is - tape.value) / tape.error;
            for (point, slope) in by {
                for axis in 0..3 {
                    // An end may be the mark below the other one: both are of one point.
                    slopes[(row, 3 * point + axis)] += slope[axis] / tape.error;
                }
            }
        }
        (left, slopes)
    }
}

/// The points of coordinates in a row.
pub(super) fn places(coordinates: &[f64]) -> Vec<Vec3> {
    coordinates.chunks_exact(3).map(Vec3::from_column_slice).collect()
}
