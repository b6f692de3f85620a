//! Margins: how far each reading may be off, by slopes, where the wheel is shown and along its travel. The first piece tells all readings where it is
//! shown; each further one those that have curves, at one travel.

use super::Job;
use crate::study::margins::{Margins, Question, SIGMAS};
use kernel::vary::spread::{Asked, Spread};
use kernel::vary::{DISTRIBUTIONS, Distribution, Errors, KINDS, Kind};
use kernel::{Layout, LeftOrRight, PointId};

/// What its tasks begin with.
pub const NAME: &str = "margins";

/// Steps from the middle of the travel to either end: half of a curve's, for a margin bends less.
const STEPS: i32 = 15;

/// A margin less than this, mm or degrees, is the noise of slopes and none (`work/spread.rs` says why).
const NOTHING: f64 = 2e-6;

/// The task of a question.
pub fn task(question: &Question) -> String {
    let Question { known, reach, at: [travel, rack], columns } = question;
    let kind = KINDS.iter().find(|(kind, _)| *kind == known.kind).map_or("", |(_, name)| name);
    let named = DISTRIBUTIONS.iter().find(|(of, _)| *of == known.distribution);
    let distribution = named.map_or("", |(_, name)| name);
    let points: Vec<String> = known.points.iter().map(|(id, most)| format!("{}={most}", id.code())).collect();
    format!(
        "{NAME}\n{} {kind} {distribution} {travel} {rack} {reach} {}\n{}\n{}",
        known.side.name(),
        points.join(" "),
        columns.join(" "),
        known.layout.to_json()
    )
}

/// What an answer says; what can't be read is left out.
pub fn read(_: &Question, answer: &str) -> Margins {
    let mut margins = Margins::default();
    for line in answer.lines() {
        let mut words = line.split(' ');
        let column = words.next().unwrap_or_default().to_string();
        let numbers: Vec<f64> = words.filter_map(|word| word.parse().ok()).collect();
        match numbers[..] {
            [margin] => margins.here.push((column, margin)),
            [travel, value, margin] => margins.along.push((column, [travel, value, margin])),
            _ => {}
        }
    }
    margins
}

/// Reads a task.
pub fn start(task: &str) -> Result<Box<dyn Job>, String> {
    let mut parts = task.splitn(3, '\n');
    let mut next = || parts.next().unwrap_or_default();
    let (head, columns, layout) = (next(), next(), Layout::from_json(next())?);
    let mut words = head.split(' ');
    let mut next = || words.next().unwrap_or_default();
    let side = if next() == LeftOrRight::Right.name() { LeftOrRight::Right } else { LeftOrRight::Left };
    let kind = next();
    let kind = KINDS.iter().find(|(_, name)| *name == kind).map_or(Kind::default(), |(kind, _)| *kind);
    let distribution = next();
    let distribution = DISTRIBUTIONS.iter().find(|(_, name)| *name == distribution);
    let distribution = distribution.map_or(Distribution::default(), |(distribution, _)| *distribution);
    let mut number = || next().parse::<f64>().unwrap_or_default();
    let (travel, rack, reach) = (number(), number(), number());
    let point = |word: &str| {
        let (code, most) = word.split_once('=')?;
        Some((PointId::coded(code)?, most.parse().ok()?))
    };
    let points: Vec<(PointId, f64)> = words.filter_map(point).collect();
    let errors = Errors::of_points(kind, &points, distribution);
    let columns = columns.split(' ').map(String::from).collect();
    Ok(Box::new(Telling { layout, side, errors, travel, rack, reach, columns, done: 0 }))
}

struct Telling {
    layout: Layout,
    side: LeftOrRight,
    errors: Errors,
    travel: f64,
    rack: f64,
    reach: f64,
    columns: Vec<String>,
    done: i32,
}

impl Job for Telling {
    fn pieces(&self) -> usize {
        2 + 2 * STEPS as usize
    }

    fn step(&mut self) -> String {
        let step = self.done;
        self.done += 1;
        match step {
            0 => self.margins(self.travel).map(|(column, [_, margin])| format!("{column} {margin}\n")).collect(),
            _ => {
                let travel = self.reach * f64::from(step - 1 - STEPS) / f64::from(STEPS);
                let has_curve = |(column, _): &(&'static str, _)| self.columns.iter().any(|wanted| wanted == column);
                let told = self.margins(travel).filter(has_curve);
                told.map(|(column, [value, margin])| format!("{column} {travel} {value} {margin}\n")).collect()
            }
        }
    }
}

impl Telling {
    /// Value and ± of all that the wheel has at a travel; nothing where it can't get there.
    fn margins(&self, travel: f64) -> impl Iterator<Item = (&'static str, [f64; 2])> + use<> {
        let asked = Asked { errors: self.errors.clone(), travels: vec![travel], rack: self.rack };
        // Nothing is drawn, so no seed matters.
        let spread = Spread::new(&self.layout, self.side, &asked, 0, |_| false).ok();
        spread.into_iter().flat_map(|spread| {
            let told = |(at, outcome): (usize, &kernel::vary::Outcome)| {
                let off = spread.off(at)?;
                let margin = SIGMAS * off.sigma_linear;
                Some((outcome.quantity.column(), [off.value, if margin < NOTHING { 0.0 } else { margin }]))
            };
            spread.outcomes().iter().enumerate().filter_map(told).collect::<Vec<_>>()
        })
    }
}
