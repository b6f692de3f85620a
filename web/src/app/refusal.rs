//! Why something was not done: a value, and the one place where it becomes a sentence.

use crate::document::place::ROLL;
use crate::document::series::MOST_EXERCISES;
use crate::document::variant::{MOST_ADJUSTERS, MOST_VARIANTS};
use crate::document::{Freedom, MOST_BESIDE, MOST_ERROR, OutOfRange};
use crate::link::TooLong;
use crate::text::sentence::capital;
use kernel::{Amount, LIMIT, PointId, Problem, Unsolved};

/// Why something was not done.
#[derive(Clone, Debug)]
pub enum Refusal {
    /// All coordinates of a point are locked, by hand or by an exercise.
    Fixed {
        /// The point.
        point: PointId,
        /// By an exercise: what may be moved in it, in words.
        exercise: Option<String>,
    },
    /// Typed coordinates lie beyond where their points may go.
    Coordinates(Vec<Coordinate>),
    /// Points that locks have kept while others were moved.
    Kept(Vec<PointId>),
    /// A coordinate of a point can't be this, mm.
    Measured(PointId, f64),
    /// How far a point may be off can't be this, mm.
    Measuring(PointId, f64),
    /// A typed position lies further than it goes each way, mm or degrees.
    Freedom {
        /// Which.
        freedom: Freedom,
        /// What was typed.
        value: f64,
        /// How far it goes.
        most: f64,
    },
    /// Two travels mean more roll, degrees, than is shown.
    Roll(f64),
    /// The axle can't stand so.
    Unsolved(Unsolved),
    /// The springs find no position under a braking, g, of which the vehicle has so much at most.
    Braking {
        /// What was typed.
        braking: f64,
        /// The most that the vehicle can have.
        most: f64,
    },
    /// What loads the axle has a number out of its range.
    Loads(OutOfRange),
    /// A layout would have these problems.
    Problems(Vec<Problem>),
    /// An adjuster does not go so far from the design, mm or degrees.
    Adjuster {
        /// What was asked for.
        to: f64,
        /// Least and most.
        range: [f64; 2],
    },
    /// No track rod gives each wheel the design's toe where the car stands.
    ToeReset,
    /// An exercise keeps the parts as they are.
    NotInExercise,
    /// There are as many exercises as a series can have.
    Exercises,
    /// No start can be found for a student.
    Variant,
    /// There are as many variants as a document can have.
    Variants,
    /// As many axles stand beside the own one as can.
    Beside,
    /// There are as many adjusters as a car can have.
    Adjusters,
    /// No link could carry it.
    TooLong(TooLong),
}

/// A coordinate beyond where its point may go, mm.
#[derive(Clone, Copy, Debug)]
pub struct Coordinate {
    /// The point.
    pub point: PointId,
    /// 0, 1, 2: x, y, z.
    pub axis: usize,
    /// What it can't be.
    pub value: f64,
    /// Least and most.
    pub range: [f64; 2],
}

impl Refusal {
    /// What the page says of it, a sentence a line.
    pub fn sentences(&self) -> Vec<String> {
        vec![match self {
            Refusal::Coordinates(beyond) => return beyond.iter().map(Coordinate::sentence).collect(),
            Refusal::Problems(problems) => return problems.iter().map(ToString::to_string).collect(),
            Refusal::Fixed { point, exercise: Some(movable) } if !movable.is_empty() => {
                format!("The {} is fixed in this exercise. You may move: {movable}.", point.name())
            }
            Refusal::Fixed { point, exercise: Some(_) } => format!("The {} is fixed in this exercise.", point.name()),
            Refusal::Fixed { point, .. } => format!("The {} is locked; unlock it under Points.", point.name()),
            Refusal::Kept(points) => {
                let names: Vec<&str> = points.iter().map(|point| point.name()).collect();
                format!("Locked points were not moved: {}.", names.join("; "))
            }
            Refusal::Measured(point, value) => {
                let (name, value) = (point.name(), Amount(*value));
                format!("{value} mm can’t be a coordinate of the {name}; it must be between −{LIMIT} and {LIMIT} mm.")
            }
            Refusal::Measuring(point, error) => {
                let (name, error) = (point.name(), Amount(*error));
                format!(
                    "The measuring tolerance of the {name} can’t be {error} mm; it must be between 0 and {MOST_ERROR} mm."
                )
            }
            Refusal::Freedom { freedom, value, most } => {
                let (name, unit, value) = (freedom.name(), freedom.unit(), Amount(*value));
                format!("{name} can’t be {value} {unit}: it must be within ±{most} {unit}.")
            }
            Refusal::Roll(roll) => format!("These travels mean a body roll of {roll:.1}°; the limit here is {ROLL}°."),
            Refusal::Unsolved(why) => capital(&why.to_string()),
            Refusal::Braking { braking, most } => {
                let braking = Amount(*braking);
                format!(
                    "At {braking} g the springs reach no position that can be shown. Enter 0 to {most:.2} g, this car’s limit."
                )
            }
            Refusal::Loads(beyond) => beyond.to_string(),
            Refusal::Adjuster { to, range: [least, most] } => {
                format!("This can’t be changed by {}: it goes from {least} to {most}.", Amount(*to))
            }
            Refusal::ToeReset => "The track rods don’t reach the design’s toe at this ride height.".into(),
            Refusal::NotInExercise => "In this exercise every part stays as it is built.".into(),
            Refusal::Exercises => format!("A series has at most {MOST_EXERCISES} exercises."),
            Refusal::Variant => {
                "Type your number in class, or your name. If you have: no start could be found for it.".into()
            }
            Refusal::Variants => {
                format!("There are {MOST_VARIANTS} variants already; remove one to make room for another.")
            }
            Refusal::Beside => {
                format!("{MOST_BESIDE} axles stand beside this one already; take one out to make room for another.")
            }
            Refusal::Adjusters => {
                format!("There are {MOST_ADJUSTERS} adjusters already; remove one to make room for another.")
            }
            Refusal::TooLong(TooLong { length, most }) => format!(
                "This was not added: the link would have {length} characters, and at most {most} can be saved and opened again. Shorten a note or a caption, or remove a slide."
            ),
        }]
    }
}

impl Coordinate {
    fn sentence(&self) -> String {
        let (name, axis, value, [least, most]) =
            (self.point.name(), ["x", "y", "z"][self.axis], Amount(self.value), self.range);
        format!("The {axis} of the {name} can’t be {value} mm: it must be between {least} and {most} mm here.")
    }
}
