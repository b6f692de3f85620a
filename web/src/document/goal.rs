//! A goal: which coordinates of the design may move how far, what readings are to become, and what is to be kept besides. Plain numbers in mm,
//! degrees and the readings' own units; a search for it is long work.

mod ends;
mod line;

pub use ends::Ends;
pub use line::Line;

use super::measuring::{code, coded};
use kernel::vary::{Design, Parameter, Quantity};
use kernel::{Layout, LeftOrRight, Level, PointId};
use serde::{Deserialize, Serialize};

/// More coordinates are not freed: an axle has half as many.
pub const MOST_FREE: usize = 60;

/// More aims are not searched for.
pub const MOST_AIMS: usize = 100;

/// Nor more places of all aims together.
pub const MOST_PLACES: usize = 1000;

/// A coordinate at rest that may move, in a search or by a student's hand.
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

impl Freed {
    /// What may move, in words.
    pub fn name(&self) -> String {
        format!("{} {}", self.point.name(), self.axis_name())
    }

    /// x, y or z.
    pub fn axis_name(&self) -> &'static str {
        ["x", "y", "z"][self.axis.min(2)]
    }

    /// The kernel's name for it.
    pub fn parameter(&self) -> Parameter {
        Parameter::Design(Design::Coordinate(self.point, self.axis))
    }
}

/// What a reading is to be.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Wanted {
    /// A value, and by how much it may be missed.
    Value([f64; 2]),
    /// From the first to the second.
    Range([f64; 2]),
    /// On a line over travel or rack, which has its own places.
    Line(Line),
}

/// The ways to say what a reading is to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// A value.
    Value,
    /// A range.
    Range,
    /// A line over travel.
    OverTravel,
    /// A line over the rack.
    OverRack,
}

impl Manner {
    /// All of them.
    pub const ALL: [Manner; 4] = [Manner::Value, Manner::Range, Manner::OverTravel, Manner::OverRack];
}

/// A reading that is aimed at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Aim {
    /// Its column.
    pub reading: String,
    /// At these travels, mm; a line over travel has its own, one over the rack is at the first.
    pub travel: Vec<f64>,
    /// And this rack, mm; a line over the rack has its own.
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

/// What is kept at places.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kept {
    /// The swing of a joint of an arm from rest.
    Swing(#[serde(serialize_with = "code", deserialize_with = "coded")] PointId),
    /// The gap between two pieces, by their names in tables.
    Gap([String; 2]),
    /// The least gap between any two.
    LeastGap,
}

/// Something that is kept: a swing below a limit, a gap above one.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Condition {
    /// What.
    pub kept: Kept,
    /// At these travels, mm.
    pub travel: Vec<f64>,
    /// And this rack, mm.
    pub rack: f64,
    /// The greatest swing, degrees, or the least gap, mm.
    pub limit: f64,
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
    /// And at places.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub conditions: Vec<Condition>,
    /// All of it is of the right wheel, not of the left.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub right: bool,
}

impl Wanted {
    /// The two numbers, as they are typed: of a line the value it begins with, and by how much it may be missed.
    pub fn numbers(&self) -> [f64; 2] {
        match self {
            Wanted::Value(numbers) | Wanted::Range(numbers) => *numbers,
            Wanted::Line(line) => [line.points.first().map_or(0.0, |point| point[1]), line.off],
        }
    }

    /// The same with another of its numbers; a line has its values elsewhere.
    pub fn with(&self, at: usize, number: f64) -> Wanted {
        let mut numbers = self.numbers();
        numbers[at.min(1)] = number;
        match self {
            Wanted::Value(_) => Wanted::Value(numbers),
            Wanted::Range(_) => Wanted::Range(numbers),
            Wanted::Line(line) => Wanted::Line(Line { off: numbers[1], ..line.clone() }),
        }
    }

    /// How it is said.
    pub fn manner(&self) -> Manner {
        match self {
            Wanted::Value(_) => Manner::Value,
            Wanted::Range(_) => Manner::Range,
            Wanted::Line(Line { rack: false, .. }) => Manner::OverTravel,
            Wanted::Line(_) => Manner::OverRack,
        }
    }

    /// The same said in another way; a line is level then, and reaches so far each way, mm.
    pub fn said_as(&self, manner: Manner, reach: f64) -> Wanted {
        let [least, most] = self.range();
        let value = [f64::midpoint(least, most), (most - least) / 2.0];
        match manner {
            same if same == self.manner() => self.clone(),
            Manner::Value => Wanted::Value(value),
            Manner::Range => Wanted::Range([least, most]),
            line => Wanted::Line(Line::level(line == Manner::OverRack, reach, value)),
        }
    }

    /// Least and most that meet it; of a line, where it begins.
    pub fn range(&self) -> [f64; 2] {
        let [a, b] = self.numbers();
        if let Wanted::Range(range) = self { *range } else { [a - b, a + b] }
    }
}

impl Aim {
    /// The quantity; `None` for a reading of another version.
    pub fn quantity(&self) -> Option<Quantity> {
        Quantity::named(&self.reading)
    }

    /// Travel and rack of each place that it is judged at, mm.
    pub fn places(&self) -> Vec<[f64; 2]> {
        match &self.wanted {
            Wanted::Line(line) if line.rack => {
                line.places().into_iter().map(|rack| [self.travel.first().copied().unwrap_or_default(), rack]).collect()
            }
            Wanted::Line(line) => line.places().into_iter().map(|travel| [travel, self.rack]).collect(),
            _ => self.travel.iter().map(|travel| [*travel, self.rack]).collect(),
        }
    }

    /// Least and most that meet it at each of them.
    pub fn ranges(&self) -> Vec<[f64; 2]> {
        match &self.wanted {
            Wanted::Line(line) => line
                .places()
                .into_iter()
                .map(|at| line.at(at))
                .map(|value| [value - line.off, value + line.off])
                .collect(),
            other => vec![other.range(); self.travel.len()],
        }
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

    /// Which wheel is asked about.
    pub fn side(&self) -> LeftOrRight {
        if self.right { LeftOrRight::Right } else { LeftOrRight::Left }
    }

    /// The conditions in the order of the kernel's files: swings, then gaps.
    pub fn kept(&self) -> impl Iterator<Item = &Condition> {
        let swing = |one: &&Condition| matches!(one.kept, Kept::Swing(_));
        self.conditions.iter().filter(swing).chain(self.conditions.iter().filter(move |one| !swing(one)))
    }
}
