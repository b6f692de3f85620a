//! What to turn: of all adjusters of a wheel, the one, and the two, by which its readings where the car stands come nearest to what is wanted.
//!
//! With r_i = (reading_i − wanted_i)/tolerance_i, Σ r_i² is made least over the adjusters' amounts in their ranges, by Gauss's method: the readings
//! are taken as straight (central differences of solved states), the least within the box is found exactly, and the step is halved until Σ r_i²
//! falls. Answers are judged by solved states alone, so slopes only lead the way. With whole shims: for what is convex over one amount, however the
//! other follows, the best count lies beside the best amount; two shimmed places are tried count by count for the first, and beside the best amount
//! for the second. All candidates are tried; of those that come equally near, the one that moves least else is taken.

use super::{Aim, Answer, Effect, Move, Outcome, Quantity, read};
use crate::layout::{Adjusted, Adjuster, Layout, LeftOrRight, Sides};
use crate::math::{squares, within};

/// What may move beside the aims, in the order of what a workshop can measure.
const EFFECTS: [&str; 8] = [
    "toe_deg",
    "camber_deg",
    "caster_sweep_deg",
    "kingpin_inclination_sweep_deg",
    "track_change_mm",
    "wheelbase_change_mm",
    "bump_steer_deg_per_mm",
    "scrub_radius_mm",
];

/// The part of its tolerance from which an effect is told.
const TOLD: f64 = 0.1;

/// Sums of squares in tolerances: answers this close come equally near (a hundredth of a tolerance), and a second adjuster is worth its work from
/// this on (a tenth of one).
const EQUAL: f64 = 1e-4;
const WORTH: f64 = 1e-2;

/// The step of slopes, mm or degrees: large against rounding, small against what adjusters do.
const SLOPE: f64 = 0.02;

/// Steps of the search; five are usual, and one that is halved so often that this is left of it has come to an end.
const MOST: u32 = 40;
const SHORTEST: f64 = 1e-3;

/// Amounts nearer than this are one, mm or degrees.
const CLOSE: f64 = 1e-10;

/// An amount is at the end of a range if it lies this near; see also [`Adjuster::set_for`].
const AT_THE_END: f64 = 1e-9;

/// So many counts of shims are tried at the first of two shimmed places, those about the best amount.
const COUNTS: f64 = 40.0;

/// The search: a candidate a step, so that whoever does it can do something else between.
pub struct Turning {
    layout: Layout,
    sides: Sides,
    aims: Vec<Aim>,
    adjusters: Vec<Adjuster>,
    tried: usize,
    found: [Vec<Found>; 2],
}

/// The best of one candidate.
struct Found {
    of: Vec<usize>,
    by: Vec<f64>,
    cost: f64,
    beside: f64,
}

impl Turning {
    /// Begins the search for a wheel of a layout, with its adjusters or others; for both wheels alike, of which the left one is read.
    pub fn new(layout: &Layout, sides: Sides, aims: Vec<Aim>, adjusters: Vec<Adjuster>) -> Turning {
        Turning { layout: layout.clone(), sides, aims, adjusters, tried: 0, found: Default::default() }
    }

    /// The wheel that is read.
    fn wheel(&self) -> LeftOrRight {
        if let Sides::One(side) = self.sides { side } else { LeftOrRight::Left }
    }

    /// How many candidates there are: each adjuster, then each two.
    pub fn candidates(&self) -> usize {
        let n = self.adjusters.len();
        n + n * n.saturating_sub(1) / 2
    }

    /// Tries the next one, if there is one.
    pub fn step(&mut self) {
        let n = self.adjusters.len();
        let pairs = (0..n).flat_map(|one| (one + 1..n).map(move |two| vec![one, two]));
        let Some(of) = (0..n).map(|one| vec![one]).chain(pairs).nth(self.tried) else { return };
        self.tried += 1;
        if let Some(found) = self.best(&of) {
            self.found[of.len() - 1].push(found);
        }
    }

    /// Of all that has been tried: the best with one adjuster; the best with two, where the second is worth its work.
    pub fn answers(&self) -> [Option<Answer>; 2] {
        let [one, two] = self.found.each_ref().map(|found| {
            let least = found.iter().map(|found| found.cost).fold(f64::INFINITY, f64::min);
            let near = found.iter().filter(|found| found.cost <= least + EQUAL);
            near.min_by(|a, b| a.beside.total_cmp(&b.beside))
        });
        let worth = |two: &&Found| one.is_none_or(|one| two.cost + WORTH < one.cost);
        [one, two.filter(worth)].map(|found| {
            let Found { of, by, .. } = found?;
            self.answer(&of.iter().copied().zip(by.iter().copied()).collect::<Vec<_>>())
        })
    }

    /// What comes of moving adjusters so far.
    pub fn answer(&self, moves: &[(usize, f64)]) -> Option<Answer> {
        let after = moves.iter().fold(self.layout.clone(), |layout, (at, by)| self.moved(&layout, *at, *by));
        let whole = moves.iter().any(|(at, _)| of_both(&self.adjusters[*at]));
        let wheel = self.wheel();
        let mut seen = vec![wheel];
        seen.extend(LeftOrRight::BOTH.into_iter().filter(|side| whole && *side != wheel));
        let aimed = |column| self.aims.iter().any(|aim| aim.quantity.column() == column);
        let effects = seen.iter().flat_map(|side| {
            let beside = EFFECTS.iter().filter(|column| *side != wheel || !aimed(**column));
            beside.filter_map(|column| Some((Quantity::named(column)?, *side)))
        });
        let (aims, effects) = (self.aims.iter().map(|aim| (aim.quantity, wheel)), effects);
        let asked: Vec<(Quantity, LeftOrRight)> = aims.chain(effects).collect();
        let [was, is] = [&self.layout, &after].map(|layout| read(layout, &outcomes(layout, &asked)).ok());
        let (was, is) = (was?, is?);
        let left_over = self.aims.iter().zip(&is).map(|(aim, is)| Some(aim.wanted - (*is)?)).collect::<Option<_>>()?;
        let effect = |at: usize| {
            let (quantity, side) = asked[at];
            Some(Effect { quantity, side, before: was[at]?, after: is[at]? })
        };
        let beside = (self.aims.len()..asked.len()).filter_map(effect);
        let told = |effect: &Effect| (effect.after - effect.before).abs() > TOLD * effect.quantity.tolerance();
        let step = |(at, by): &(usize, f64)| {
            let [least, most] = self.span(*at);
            Move { adjuster: *at, by: *by, at_end: *by <= least + AT_THE_END || *by >= most - AT_THE_END }
        };
        let moves = moves.iter().map(step).collect();
        Some(Answer { moves, changes: after.changes, left_over, effects: beside.filter(told).collect() })
    }

    /// The least and the greatest movement of an adjuster. One that is beyond its range may stay where it is.
    fn span(&self, at: usize) -> [f64; 2] {
        let now = self.amounts(at);
        let [least, most] = self.adjusters[at].range;
        [(least - now[0].min(now[1])).min(0.0), (most - now[0].max(now[1])).max(0.0)]
    }

    /// How far an adjuster is from the design on the wheels that are worked on.
    fn amounts(&self, at: usize) -> [f64; 2] {
        let (adjuster, changes) = (&self.adjusters[at], &self.layout.changes);
        let both = adjuster.amount(changes, Sides::Both);
        let of = |side| both + if of_both(adjuster) { 0.0 } else { adjuster.amount(changes, Sides::One(side)) };
        if self.sides == Sides::Both { LeftOrRight::BOTH.map(of) } else { [of(self.wheel()); 2] }
    }

    fn moved(&self, layout: &Layout, at: usize, by: f64) -> Layout {
        let adjuster = &self.adjusters[at];
        let sides = if of_both(adjuster) { Sides::Both } else { self.sides };
        Layout { changes: adjuster.moved(&layout.changes, sides, by), ..layout.clone() }
    }

    /// (reading − wanted)/tolerance of each aim; `None` where the axle can't be so, or has no such reading.
    fn lacking(&self, of: &[usize], by: &[f64]) -> Option<Vec<f64>> {
        let layout = of.iter().zip(by).fold(self.layout.clone(), |layout, (at, by)| self.moved(&layout, *at, *by));
        let asked: Vec<_> = self.aims.iter().map(|aim| (aim.quantity, self.wheel())).collect();
        let values = read(&layout, &outcomes(&layout, &asked)).ok()?;
        let lack = |(aim, value): (&Aim, Option<f64>)| Some((value? - aim.wanted) / aim.quantity.tolerance());
        self.aims.iter().zip(values).map(lack).collect()
    }

    /// The best amounts of these adjusters, whole shims where they have any.
    fn best(&self, of: &[usize]) -> Option<Found> {
        let spans: Vec<[f64; 2]> = of.iter().map(|at| self.span(*at)).collect();
        let (by, cost) = self.least(of, &spans, &vec![0.0; of.len()])?;
        let shimmed: Vec<usize> = (0..of.len()).filter(|i| self.adjusters[of[*i]].step.is_some()).collect();
        let (by, cost) = match shimmed[..] {
            [] => (by, cost),
            [i] => self.whole(of, &spans, i, &by, 1.0)?,
            _ => self.whole(of, &spans, 0, &by, COUNTS)?,
        };
        let moves: Vec<(usize, f64)> = of.iter().copied().zip(by.iter().copied()).collect();
        let effects = self.answer(&moves)?.effects;
        let size = |effect: &Effect| ((effect.after - effect.before) / effect.quantity.tolerance()).powi(2);
        Some(Found { of: of.to_vec(), by, cost, beside: effects.iter().map(size).sum() })
    }

    /// The best with a whole count of shims at the i-th, of the counts within so many of the best amount; the other follows, with whole shims too if
    /// it has any.
    fn whole(&self, of: &[usize], spans: &[[f64; 2]], i: usize, best: &[f64], counts: f64) -> Option<(Vec<f64>, f64)> {
        let now = self.amounts(of[i])[0];
        let shim = self.adjusters[of[i]].step?;
        let middle = ((now + best[i]) / shim).floor();
        let ways = (0..2 * counts as i64).map(|n| (middle - counts + 1.0 + n as f64) * shim - now);
        let [least, most] = self.adjusters[of[i]].range.map(|end| end - now);
        let within = ways.filter(|by| (least - AT_THE_END..=most + AT_THE_END).contains(by));
        let at = |by: f64| {
            let mut fixed = spans.to_vec();
            fixed[i] = [by; 2];
            let found = self.least(of, &fixed, best)?;
            let other = (i + 1..of.len()).find(|other| self.adjusters[of[*other]].step.is_some());
            match other {
                Some(other) => self.whole(of, &fixed, other, &found.0, 1.0),
                None => Some(found),
            }
        };
        within.filter_map(at).min_by(|(_, a), (_, b)| a.total_cmp(b))
    }

    /// The amounts within spans that make Σ r² least, from a start on, and that sum.
    fn least(&self, of: &[usize], spans: &[[f64; 2]], start: &[f64]) -> Option<(Vec<f64>, f64)> {
        let mut by: Vec<f64> = start.iter().zip(spans).map(|(by, [least, most])| by.clamp(*least, *most)).collect();
        let mut lack = self.lacking(of, &by)?;
        for _ in 0..MOST {
            let slope = |i: usize| {
                let [up, down] = [SLOPE, -SLOPE].map(|h| {
                    let mut beside = by.clone();
                    beside[i] += h;
                    self.lacking(of, &beside)
                });
                Some(up?.iter().zip(down?).map(|(up, down)| (up - down) / (2.0 * SLOPE)).collect())
            };
            let slopes: Vec<Vec<f64>> = (0..of.len()).map(slope).collect::<Option<_>>()?;
            let room: Vec<[f64; 2]> = spans.iter().zip(&by).map(|(span, by)| span.map(|end| end - by)).collect();
            let step = within(&slopes, &lack, &room);
            if step.iter().all(|step| step.abs() < CLOSE) {
                break;
            }
            let mut part = 1.0;
            let next = loop {
                let tried: Vec<f64> = by.iter().zip(&step).map(|(by, step)| by + part * step).collect();
                match self.lacking(of, &tried) {
                    Some(better) if squares(&better) < squares(&lack) => break Some((tried, better)),
                    _ if part < SHORTEST => break None,
                    _ => part /= 2.0,
                }
            };
            let Some(next) = next else { break };
            (by, lack) = next;
        }
        Some((by, squares(&lack)))
    }
}

/// All of the search at once.
pub fn turn(layout: &Layout, sides: Sides, aims: Vec<Aim>, adjusters: Vec<Adjuster>) -> [Option<Answer>; 2] {
    let mut turning = Turning::new(layout, sides, aims, adjusters);
    (0..turning.candidates()).for_each(|_| turning.step());
    turning.answers()
}

/// True for what moves the whole car's parts, not one wheel's.
fn of_both(adjuster: &Adjuster) -> bool {
    matches!(adjuster.set, Adjusted::Change(change) if change.of_both())
}

/// Quantities where a layout's car stands, wheels ahead.
fn outcomes(layout: &Layout, asked: &[(Quantity, LeftOrRight)]) -> Vec<Outcome> {
    let travel = layout.changes.ride();
    asked.iter().map(|(quantity, side)| Outcome { quantity: *quantity, side: *side, travel, rack: 0.0 }).collect()
}
