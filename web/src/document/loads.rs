//! What loads the axle, as it is chosen and typed.

use kernel::{Amount, LoadCase, Material, Section};
use std::fmt;

/// What loads the axle, and what its arms are taken to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loads {
    /// The load shown.
    pub case: Case,
    /// The reader's own load, N: at the road along heading, side and up, then the same at the wheel centre.
    pub own: [f64; 6],
    /// Driving torque of that load on the wheel, N·m, through the half-shaft.
    pub own_torque: f64,
    /// Material of the arms.
    pub material: Material,
    /// Cross-section of the arms.
    pub section: Section,
    /// Allowed bending stress of a strut's rod, N/mm².
    pub stress: f64,
    /// How far a ball joint may swing from rest, degrees.
    pub swing: f64,
}

impl Default for Loads {
    fn default() -> Loads {
        Loads {
            case: Case::None,
            own: [0.0, 0.0, 4000.0, 0.0, 0.0, 0.0],
            own_torque: 0.0,
            material: Material::Steel,
            section: Section::Tube { outer: 30.0, wall: 3.0 },
            stress: 250.0,
            swing: 20.0,
        }
    }
}

impl Loads {
    /// What is wrong with typed ones: the first number out of its range.
    pub fn problem(&self) -> Option<OutOfRange> {
        let forces = self.own.map(|force| ("force of your own load", force, [-MOST_FORCE, MOST_FORCE], "N"));
        let torque = ("torque of your own load", self.own_torque, [-MOST_FORCE, MOST_FORCE], "N·m");
        let section = match self.section {
            Section::Tube { outer, wall } => {
                [("tube’s diameter", outer, [1.0, 500.0], "mm"), ("tube’s wall", wall, [0.1, outer / 2.0], "mm")]
            }
            Section::Given { area, inertia } => [
                ("section’s area", area, [1.0, 1e6], "mm²"),
                ("section’s second moment of area", inertia, [1.0, 1e9], "mm⁴"),
            ],
        };
        let limits = [
            ("allowed stress", self.stress, [1.0, 10_000.0], "N/mm²"),
            ("allowed joint angle", self.swing, [0.0, 180.0], "°"),
        ];
        let all = forces.into_iter().chain([torque]).chain(section).chain(limits);
        let mut all = all.map(|(name, value, range, unit)| OutOfRange { name, value, range, unit });
        all.find(|number| !(number.range[0]..=number.range[1]).contains(&number.value))
    }
}

/// A number out of its range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutOfRange {
    /// What it is, as the page has it.
    pub name: &'static str,
    /// The number.
    pub value: f64,
    /// Least and most.
    pub range: [f64; 2],
    /// Their unit.
    pub unit: &'static str,
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let OutOfRange { name, value, range: [least, most], unit } = self;
        let value = Amount(*value);
        write!(f, "The {name} can’t be {value} {unit}: it must be between {least} and {most} {unit}.")
    }
}

/// More than a thousand tonnes on a wheel is a slip, N.
const MOST_FORCE: f64 = 1e7;

/// Which load is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Case {
    /// None.
    #[default]
    None,
    /// One of [`LoadCase::all`], by its place there.
    Of(usize),
    /// The reader's own.
    Own,
}

impl Case {
    /// Every choice, with its name in links.
    pub fn all() -> impl Iterator<Item = (Case, &'static str)> {
        let cases = LoadCase::all().iter().enumerate().map(|(at, case)| (Case::Of(at), case.key));
        [(Case::None, "none")].into_iter().chain(cases).chain([(Case::Own, "own")])
    }

    /// What the page calls it.
    pub fn name(self) -> &'static str {
        match self {
            Case::None => "none",
            Case::Of(at) => LoadCase::all().get(at).map_or("", |case| case.name),
            Case::Own => "Own load",
        }
    }
}
