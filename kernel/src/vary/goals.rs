//! Goals: which numbers have to be what, inside their boxes, so that these readings come out?
//!
//! ```text
//! aim at a value    r = (outcome − value)/tolerance
//! aim at a range    r = how far outside/scale                the scale is the tolerance, or a tenth of the range's width
//! condition         r = how far outside/1 mm or 0.1°          a length, a joint's swing, the least gap
//! pull              r = 0.01·(number − what it is now)       per mm or degree: of many answers the one nearest to the present axle
//! ```
//! Σ r² is made least, within the boxes, from the present axle and from points drawn in them.

mod condition;
mod file;
mod problem;

pub use condition::{Condition, Kept};

use super::{NoSearch, Outcome, Parameter, Quantity, Varied};
use crate::layout::{Layout, LeftOrRight, Member, Sides};
use crate::math::{Bounded, Random, Stopped, outside};
use problem::Problem;

/// A number that may change, and how far.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Freedom {
    /// The number; a change is made on both sides alike.
    pub parameter: Parameter,
    /// The least and the greatest that it may be, mm or degrees.
    pub range: [f64; 2],
}

/// What a reading is to be at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wanted {
    /// This value.
    Value(f64),
    /// From the first to the second.
    Range([f64; 2]),
}

/// A reading that is wanted, at one place or along a curve.
#[derive(Clone)]
pub struct Aim {
    /// The reading.
    pub quantity: Quantity,
    /// Travel and rack of each place, mm, with what is wanted there.
    pub places: Vec<([f64; 2], Wanted)>,
    /// What counts as one unit off, in the reading's unit; more than 0.
    pub tolerance: f64,
}

/// A length that has to stay in a range, mm, as the part is built.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LengthKept {
    /// The rod or leg.
    pub member: Member,
    /// The least and the greatest that it may be.
    pub range: [f64; 2],
}

/// What is wanted, and what may change for it.
#[derive(Clone)]
pub struct Goals {
    /// What may change; at least one.
    pub free: Vec<Freedom>,
    /// What is wanted; at least one.
    pub aims: Vec<Aim>,
    /// What has to be kept besides.
    pub lengths: Vec<LengthKept>,
    /// And what has to be kept at places.
    pub conditions: Vec<Condition>,
    /// Which wheel all of it is of; racks are as that wheel, seen as a left one, has them.
    pub side: LeftOrRight,
    /// From so many points it is searched; the first is the present axle.
    pub starts: usize,
    /// What the other points are drawn with.
    pub seed: u64,
}

/// The pull to stay, in tolerances per mm or degree: enough to choose among answers, too little to spoil one.
const PULL: f64 = 0.01;

/// An aim is met if it is missed by less than its tolerance; a range and a length, which the search comes to from outside, by less than the pull's part
/// of their scale.
const MET_RANGE: f64 = PULL;

/// Answers whose numbers all lie nearer than this to each other are one, mm or degrees.
const SAME: f64 = 0.5;

impl Wanted {
    /// Where the reading is to be: a value's range has no width.
    fn range(self) -> [f64; 2] {
        match self {
            Wanted::Value(value) => [value, value],
            Wanted::Range(range) => range,
        }
    }

    fn is_met(self, value: f64, tolerance: f64) -> bool {
        let most = if matches!(self, Wanted::Value(_)) { 1.0 } else { MET_RANGE };
        outside(value, self.range()).abs() <= most * tolerance
    }
}

/// A search that goes on start by start, and from each start step by step.
pub struct Search {
    goals: Goals,
    problem: Problem,
    random: Random,
    begun: usize,
    /// On the way from the start that was begun last, if its end is not found yet.
    way: Option<Bounded>,
    answers: Vec<Answer>,
}

/// One way to come as near as can be.
#[derive(Clone, Debug)]
pub struct Answer {
    /// The free numbers, in their order.
    pub numbers: Vec<f64>,
    /// What comes out, aim by aim and place by place.
    pub values: Vec<Vec<f64>>,
    /// Which aims are met.
    pub met: Vec<bool>,
    /// Which lengths are kept, and then which conditions.
    pub kept: Vec<bool>,
    /// What comes of the conditions, each place by place, mm or degrees.
    pub conditions: Vec<Vec<f64>>,
    /// Σ r², with the pull.
    pub sum: f64,
    /// Why the search ended here.
    pub stopped: Stopped,
    /// After so many steps.
    pub steps: u32,
    /// The free numbers that lie at an end of their range.
    pub at_the_end: Vec<usize>,
    /// The two aims that pull against each other most, where not all are met.
    pub against: Option<[usize; 2]>,
}

impl Answer {
    /// True if everything that was asked for is met.
    pub fn all_met(&self) -> bool {
        self.met.iter().chain(&self.kept).all(|met| *met)
    }
}

impl Search {
    /// Begins on a layout.
    pub fn new(layout: &Layout, goals: Goals) -> Result<Search, NoSearch> {
        let outcome =
            |aim: &Aim, [travel, rack]: [f64; 2]| Outcome { quantity: aim.quantity, side: goals.side, travel, rack };
        let outcomes: Vec<Outcome> =
            goals.aims.iter().flat_map(|aim| aim.places.iter().map(|(place, _)| outcome(aim, *place))).collect();
        let numbers = goals.free.iter().map(|free| (free.parameter, Sides::Both)).collect();
        let mut varied = Varied::new(layout, numbers, &outcomes);
        let now = varied.begun(&outcomes)?;
        let random = Random::seeded(goals.seed);
        let aimed = |aim: &Aim| {
            let tolerance = aim.tolerance;
            aim.places.iter().map(move |(_, wanted)| wanted.range().map(|end| end / tolerance)).collect::<Vec<_>>()
        };
        let placed = |condition: &Condition| {
            vec![condition.range.map(|end| end / condition.kept.scale()); condition.places.len()]
        };
        let lengths = goals.lengths.iter().map(|kept| kept.range);
        let conditions = goals.conditions.iter().flat_map(placed);
        let ranges = goals.aims.iter().flat_map(aimed).chain(lengths).chain(conditions).collect();
        let here = varied.layout(&now);
        let lacks = |one: &Condition| one.values(here, goals.side).is_none();
        if let Some(at) = goals.conditions.iter().position(lacks) {
            return Err(NoSearch::NoCondition(at));
        }
        let problem = Problem { goals: goals.clone(), ranges, varied, now };
        Ok(Search { goals, problem, random, begun: 0, way: None, answers: Vec::new() })
    }

    /// How many starts there are.
    pub fn starts(&self) -> usize {
        self.goals.starts
    }

    /// A start is at its end after so many steps at the latest.
    pub const STEPS: usize = Bounded::MOST as usize;

    /// Searches from the next start to its end.
    pub fn step(&mut self) {
        while !self.advance() {}
    }

    /// Takes one step on the way from a start, the first of the next one where the last is at its end; true when the end is found.
    pub fn advance(&mut self) -> bool {
        let Some(mut way) = self.way.take().or_else(|| self.begin()) else { return true };
        match way.step(&mut self.problem) {
            None => self.way = Some(way),
            Some(least) => {
                let answer = self.problem.answer(least);
                self.keep(answer);
            }
        }
        self.way.is_none()
    }

    /// Begins the next start: the present axle, then points in the boxes. `None` where there is no such axle.
    fn begin(&mut self) -> Option<Bounded> {
        let point = |Freedom { range: [least, most], .. }: &Freedom| least + (most - least) * self.random.unit();
        let start: Vec<f64> = match self.begun {
            0 => self.problem.now.clone(),
            _ => self.goals.free.iter().map(point).collect(),
        };
        self.begun += 1;
        let bounds: Vec<[f64; 2]> = self.goals.free.iter().map(|free| free.range).collect();
        Bounded::new(&mut self.problem, &start, &bounds)
    }

    /// Keeps an answer among the others, the best first; of those that are one, the better.
    fn keep(&mut self, answer: Option<Answer>) {
        let Some(answer) = answer else { return };
        let near = |other: &Answer| other.numbers.iter().zip(&answer.numbers).all(|(a, b)| (a - b).abs() < SAME);
        match self.answers.iter_mut().find(|other| near(other)) {
            Some(other) if other.sum <= answer.sum => {}
            Some(other) => *other = answer,
            None => self.answers.push(answer),
        }
        self.answers.sort_by(|a, b| a.sum.total_cmp(&b.sum));
    }

    /// The answers so far, the best first.
    pub fn answers(&self) -> &[Answer] {
        &self.answers
    }

    /// The layout of an answer.
    pub fn layout(&mut self, answer: &Answer) -> Layout {
        self.problem.varied.layout(&answer.numbers).clone()
    }
}
