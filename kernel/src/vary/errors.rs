//! How far numbers may be off: points that were measured, or parts that were built, to ± so much.

use super::{Design, Parameter};
use crate::layout::{Change, Entry, Layout, Member, PointId, Read, clip};
use crate::math::Random;
use serde_json::Value;

/// Numbers of a layout that are known to ± so much.
#[derive(Clone, Debug, PartialEq)]
pub struct Errors {
    /// Each number with its ±, more than 0, mm.
    pub numbers: Vec<(Parameter, f64)>,
    /// What lies within the ±.
    pub distribution: Distribution,
}

/// What is off.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Kind {
    /// Coordinates were measured: lengths follow, and the wheel stands at rest as it was measured.
    #[default]
    Design,
    /// Parts were built: joints sit elsewhere on them, and the wheel follows.
    Build,
}

/// How errors are spread within their ±.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Distribution {
    /// Anywhere in it alike.
    #[default]
    Uniform,
    /// Normal: ± is two standard deviations.
    Normal,
}

/// What files call the kinds.
pub const KINDS: [(Kind, &str); 2] = [(Kind::Design, "design"), (Kind::Build, "build")];

/// What files call the distributions.
pub const DISTRIBUTIONS: [(Distribution, &str); 2] =
    [(Distribution::Uniform, "uniform"), (Distribution::Normal, "normal")];

impl Distribution {
    /// The standard deviation of a ±: of a uniform one ±/√3.
    pub fn deviation(self, most: f64) -> f64 {
        match self {
            Distribution::Uniform => most / 3.0_f64.sqrt(),
            Distribution::Normal => most / 2.0,
        }
    }

    fn draw(self, random: &mut Random, most: f64) -> f64 {
        match self {
            Distribution::Uniform => most * random.uniform(),
            Distribution::Normal => self.deviation(most) * random.normal(),
        }
    }
}

impl Errors {
    /// One set of errors, in the order of the numbers.
    pub fn draw(&self, random: &mut Random) -> Vec<f64> {
        self.numbers.iter().map(|(_, most)| self.distribution.draw(random, *most)).collect()
    }

    /// The coordinates of points, each to its ±, as one of the kinds.
    pub fn of_points(kind: Kind, points: &[(PointId, f64)], distribution: Distribution) -> Errors {
        let number = |id, axis| match kind {
            Kind::Design => Parameter::Design(Design::Coordinate(id, axis)),
            Kind::Build => Parameter::Change(Change::Joint(id, axis)),
        };
        let numbers = points.iter().flat_map(|(id, most)| (0..3).map(move |axis| (number(*id, axis), *most)));
        Errors { numbers: numbers.collect(), distribution }
    }

    /// Reads the entries `kind`, `points`, `lengths` and `distribution` of a file for this axle.
    pub(crate) fn read(file: &Entry, layout: &Layout) -> Read<Errors> {
        let kind = file.word_or("kind", &KINDS)?;
        let distribution = file.word_or("distribution", &DISTRIBUTIONS)?;
        let all = Parameter::all(layout);
        let points = plus_minus(file, "points")?.into_iter().map(|(name, most)| {
            let is = |(id, _): &(PointId, _)| id.path(layout) == name;
            let (id, _) = layout.points().find(is).ok_or_else(|| no_such(file, "points", &name))?;
            Ok((id, most))
        });
        let points: Vec<(PointId, f64)> = points.collect::<Read<_>>()?;
        let mut errors = Errors::of_points(kind, &points, distribution);
        if let Some((number, _)) = errors.numbers.iter().find(|(number, _)| !all.contains(number)) {
            return Err(format!("“{}” is nothing that can be off", number.name(layout)));
        }
        for (name, most) in plus_minus(file, "lengths")? {
            if kind == Kind::Design {
                return Err(format!("“{}” belong to errors of kind build", file.path("lengths")));
            }
            let is = |member: &&Member| member.path() == name && all.contains(&length(**member));
            let member = Member::RODS.iter().find(is).ok_or_else(|| no_such(file, "lengths", &name))?;
            errors.numbers.push((length(*member), most));
        }
        if errors.numbers.is_empty() {
            return Err("nothing in it is off: “points” is empty".into());
        }
        Ok(errors)
    }
}

fn length(member: Member) -> Parameter {
    Parameter::Change(Change::Length(member))
}

fn no_such(file: &Entry, key: &str, name: &str) -> String {
    format!("“{}” has an entry “{}”, which this axle does not have", file.path(key), clip(name))
}

/// The greatest ± that can be asked about, mm: more is another axle.
const MOST: f64 = 50.0;

/// An object of names with their ±; none where it is missing.
fn plus_minus(file: &Entry, key: &str) -> Read<Vec<(String, f64)>> {
    let Some(value) = file.find(key) else { return Ok(Vec::new()) };
    let path = file.path(key);
    let fields = value.as_object().ok_or_else(|| format!("“{path}” must be an object {{ … }}"))?;
    let number = |(name, value): (&String, &Value)| {
        let most = value.as_f64().ok_or_else(|| format!("“{path}.{}” must be a number", clip(name)))?;
        if (0.0..=MOST).contains(&most) && most > 0.0 {
            Ok((name.clone(), most))
        } else {
            Err(format!("“{path}.{}” is {most}; it must be more than 0 and at most {MOST} mm", clip(name)))
        }
    };
    fields.iter().map(number).collect()
}
