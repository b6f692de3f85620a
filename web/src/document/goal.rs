//! A goal: which coordinates of the design may move how far, what readings are to become, and which lengths are to stay in a range. Plain numbers in mm,
//! degrees and the readings' own units; a search for it is long work.

use super::measuring::{code, coded};
use kernel::vary::Quantity;
use kernel::{Layout, Level, PointId};
use serde::{Deserialize, Serialize};

/// More coordinates are not freed: an axle has half as many.
pub const MOST_FREE: usize = 60;

/// More aims are not searched for.
pub const MOST_AIMS: usize = 100;

/// Nor more places of all aims together.
pub const MOST_PLACES: usize = 1000;

/// A coordinate at rest that may move.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Freed {
    /// The point.
    #[serde(serialize_with = "code", deserialize_with = "coded")]
    pub point: PointId,
    /// 0, 1, 2: x, y, z.
    pub axis: usize,
    /// Least and most, mm.
    pub range: [f64; 2],
}

/// What a reading is to be.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Wanted {
    /// A value, and by how much it may be missed.
    Value([f64; 2]),
    /// From the first to the second.
    Range([f64; 2]),
}

/// A reading that is aimed at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Aim {
    /// Its column.
    pub reading: String,
    /// At these travels, mm.
    pub travel: Vec<f64>,
    /// And this rack, mm.
    pub rack: f64,
    /// What it is to be there.
    pub wanted: Wanted,
}

/// A rod or leg whose length stays in a range.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LengthKept {
    /// Its path in layout files.
    pub member: String,
    /// Least and most, mm.
    pub range: [f64; 2],
}

/// The goal.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Goal {
    /// What may move.
    pub free: Vec<Freed>,
    /// What is wanted.
    pub aims: Vec<Aim>,
    /// What has to be kept besides.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub lengths: Vec<LengthKept>,
}

impl Wanted {
    /// The two numbers, as they are typed.
    pub fn numbers(self) -> [f64; 2] {
        match self {
            Wanted::Value(numbers) | Wanted::Range(numbers) => numbers,
        }
    }

    /// The same with another of its numbers.
    pub fn with(self, at: usize, number: f64) -> Wanted {
        let mut numbers = self.numbers();
        numbers[at.min(1)] = number;
        if self.is_range() { Wanted::Range(numbers) } else { Wanted::Value(numbers) }
    }

    /// True for a range.
    pub fn is_range(self) -> bool {
        matches!(self, Wanted::Range(_))
    }

    /// The same as a range, or as a value with what it may be missed by.
    pub fn said_as(self, range: bool) -> Wanted {
        match (self, range) {
            (Wanted::Value([value, off]), true) => Wanted::Range([value - off, value + off]),
            (Wanted::Range([least, most]), false) => Wanted::Value([(least + most) / 2.0, (most - least) / 2.0]),
            (same, _) => same,
        }
    }

    /// Least and most that meet it.
    pub fn range(self) -> [f64; 2] {
        if let Wanted::Range(range) = self.said_as(true) { range } else { self.numbers() }
    }
}

impl Aim {
    /// The quantity; `None` for a reading of another version.
    pub fn quantity(&self) -> Option<Quantity> {
        Quantity::named(&self.reading)
    }
}

/// What a click frees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Preset {
    /// The outer joints of the arms, or the ball joints: along x and y 40 mm each way, along z 10.
    OuterJoints,
    /// The track rod's inner joint up and down, as a rack higher or lower has it, and in and out, which is the track rod's length: 15 mm each way.
    Rack,
    /// Every joint on the body, 15 mm each way.
    BodyJoints,
}

/// How far presets let coordinates move each way, mm (assumed values).
const OUTER: [f64; 3] = [40.0, 40.0, 10.0];
const NEAR: f64 = 15.0;

impl Preset {
    /// What it frees on an axle.
    pub fn freed(self, layout: &Layout) -> Vec<Freed> {
        let outer = |id: PointId| Level::ALL.iter().any(|at| at.outer_joints().contains(&id) || at.ball_joint() == id);
        let reach = |id: PointId| match self {
            Preset::OuterJoints => outer(id).then_some(OUTER),
            Preset::Rack => (id == PointId::TrackRodInner).then_some([0.0, NEAR, NEAR]),
            Preset::BodyJoints => (id.is_joint() && !id.on_carrier()).then_some([NEAR; 3]),
        };
        layout.points().filter_map(|(id, _)| Some(around(layout, id, reach(id)?))).flatten().collect()
    }
}

/// The coordinates of a point, each free so far each way; where that is 0 it is not.
pub fn around(layout: &Layout, point: PointId, reach: [f64; 3]) -> Vec<Freed> {
    let Some(at) = layout.point(point) else { return Vec::new() };
    let free = (0..3).filter(|axis| reach[*axis] > 0.0);
    free.map(|axis| Freed { point, axis, range: [at[axis] - reach[axis], at[axis] + reach[axis]] }).collect()
}

/// A joint of one's own choice may move so far each way, mm.
pub const USUAL: [f64; 3] = [NEAR; 3];

impl Goal {
    /// Frees coordinates that are not free yet.
    pub fn free(&mut self, more: Vec<Freed>) {
        let new = |freed: &Freed| !self.free.iter().any(|old| (old.point, old.axis) == (freed.point, freed.axis));
        let new: Vec<Freed> = more.into_iter().filter(new).collect();
        self.free.extend(new);
    }
}
