//! What was measured on a car and typed, before it becomes part of the axle.

use kernel::{PointId, Vec3, clip};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// What was measured of a point; `None` was not.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// The point.
    #[serde(serialize_with = "code", deserialize_with = "coded")]
    pub point: PointId,
    /// Its coordinates, mm.
    pub at: [Option<f64>; 3],
    /// How far they may be off, mm each way.
    pub error: Option<f64>,
}

impl Measured {
    /// Nothing of a point.
    pub fn nothing(point: PointId) -> Measured {
        Measured { point, at: [None; 3], error: None }
    }

    /// The numbers in the order of the sheet: x, y, z, ±.
    pub fn numbers(&self) -> [Option<f64>; 4] {
        let [x, y, z] = self.at;
        [x, y, z, self.error]
    }

    /// The same with another number in its place.
    pub fn with(mut self, column: usize, value: Option<f64>) -> Measured {
        *self.at.get_mut(column).unwrap_or(&mut self.error) = value;
        self
    }

    /// Where the point is then, if it was at a place before.
    pub fn over(&self, before: Vec3) -> Vec3 {
        Vec3::from_fn(|axis, _| self.at[axis].unwrap_or(before[axis]))
    }
}

impl From<(PointId, Vec3)> for Measured {
    fn from((point, at): (PointId, Vec3)) -> Measured {
        Measured { point, at: [at.x, at.y, at.z].map(Some), error: None }
    }
}

/// A point by its code in links.
pub(super) fn code<S: Serializer>(point: &PointId, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(point.code())
}

/// A point of such a code.
pub(super) fn coded<'de, D: Deserializer<'de>>(from: D) -> Result<PointId, D::Error> {
    let code = String::deserialize(from)?;
    PointId::coded(&code).ok_or_else(|| de::Error::custom(format!("no point “{}”", clip(&code))))
}

/// What is typed and not yet taken.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Measuring {
    /// The rows of the measuring sheet of which something is filled in.
    pub points: Vec<Measured>,
    /// The list of tape readings, as it is typed.
    pub tapes: String,
}

impl Measuring {
    /// True if nothing is.
    pub fn is_empty(&self) -> bool {
        *self == Measuring::default()
    }

    /// What is filled in of a point.
    pub fn of(&self, point: PointId) -> Measured {
        self.points.iter().copied().find(|row| row.point == point).unwrap_or(Measured::nothing(point))
    }

    /// Fills in a point's row; one without a number is none.
    pub fn fill(&mut self, row: Measured) {
        self.points.retain(|other| other.point != row.point);
        if row.numbers() != [None; 4] {
            self.points.push(row);
        }
    }
}
