//! The workshop's question: how far does an adjuster have to go for a wanted reading where the car stands, and what is left over.
//!
//! A reading over an adjuster's amount is smooth and, over what an adjuster does, nearly straight; the amount is sought by the secant rule from
//! where the adjuster is now,
//! ```text
//! x_(k+1) = x_k − f(x_k)·(x_k − x_(k−1))/(f(x_k) − f(x_(k−1))),   f = reading − wanted
//! ```
//! kept within the adjuster's range: one that would have to go beyond it ends there, with what is left over.

use crate::axle::Axle;
use crate::layout::{Adjusted, Adjuster, Change, Changes, Layout, Sides};

/// Where an adjuster has been set.
#[derive(Clone, Debug, PartialEq)]
pub struct SetUp {
    /// The changes with it.
    pub changes: Changes,
    /// How far it was moved, mm, or degrees for an angle.
    pub by: f64,
    /// What the reading is then.
    pub reading: f64,
    /// What is still lacking: wanted less reading.
    pub left_over: f64,
}

/// The first step of the search, in the adjuster's unit: large against rounding, small against what adjusters do.
const FIRST: f64 = 0.25;

/// Steps of the search; five are usual.
const MOST: u32 = 40;

/// Amounts nearer than this are one, in the adjuster's unit: a picometre.
const CLOSE: f64 = 1e-9;

/// An amount from the design is one of its range if it lies outside it by less than this.
const AT_THE_END: f64 = 1e-9;

impl Adjuster {
    /// An adjuster of one change, as far as the change may go.
    pub fn of(change: Change) -> Adjuster {
        Adjuster { set: Adjusted::Change(change), range: change.range(), pitch: None, step: None }
    }

    /// The unit of its amounts.
    pub fn unit(&self) -> &'static str {
        if let Adjusted::Change(change) = self.set { change.unit() } else { "mm" }
    }

    /// How far it is from the design on these sides.
    pub fn amount(&self, changes: &Changes, sides: Sides) -> f64 {
        match &self.set {
            Adjusted::Change(change) => changes.get(sides, *change),
            Adjusted::Along(id, along) => {
                (0..3).map(|axis| changes.get(sides, Change::Joint(*id, axis)) * along[axis]).sum()
            }
        }
    }

    /// Moves it further by so much.
    pub fn moved(&self, changes: &Changes, sides: Sides, by: f64) -> Changes {
        let mut moved = changes.clone();
        match &self.set {
            Adjusted::Change(change) => moved.set(sides, *change, changes.get(sides, *change) + by),
            Adjusted::Along(id, along) => {
                for axis in 0..3 {
                    let change = Change::Joint(*id, axis);
                    moved.set(sides, change, changes.get(sides, change) + by * along[axis]);
                }
            }
        }
        moved
    }

    /// Sets it so that a reading of the car is what is wanted, or as near as its range and its shims allow; `None` where the reading is none, or the
    /// adjuster does not move it.
    pub fn set_for(
        &self,
        layout: &Layout,
        sides: Sides,
        read: impl Fn(&Axle) -> Option<f64>,
        wanted: f64,
    ) -> Option<SetUp> {
        let now = self.amount(&layout.changes, sides);
        let [least, most] = self.range.map(|end| end - now);
        let at = |by: f64| {
            let changes = self.moved(&layout.changes, sides, by);
            let axle = Axle::new(&Layout { changes: changes.clone(), ..layout.clone() }).ok()?;
            let reading = read(&axle)?;
            reading.is_finite().then_some(SetUp { changes, by, reading, left_over: wanted - reading })
        };
        let found = self.search(&at, [least.min(0.0), most.max(0.0)])?;
        let Some(shim) = self.step else { return Some(found) };
        // Whole shims: the two counts that lie beside the exact one, in the adjuster's range.
        let below = ((now + found.by) / shim).floor() * shim - now;
        let whole =
            [below, below + shim].into_iter().filter(|by| (least - AT_THE_END..=most + AT_THE_END).contains(by));
        whole.filter_map(at).min_by(|a, b| a.left_over.abs().total_cmp(&b.left_over.abs()))
    }

    /// The nearest to what is wanted within a range of movement that has 0 in it.
    fn search(&self, at: &impl Fn(f64) -> Option<SetUp>, [least, most]: [f64; 2]) -> Option<SetUp> {
        let mut before = at(0.0)?;
        let first = if most >= FIRST { FIRST } else { -FIRST.min(-least) };
        let mut here = at(first)?;
        if here.by == before.by || here.reading == before.reading {
            return None;
        }
        for _ in 0..MOST {
            let slope = (here.left_over - before.left_over) / (here.by - before.by);
            let mut next = (here.by - here.left_over / slope).clamp(least, most);
            if !next.is_finite() || (next - here.by).abs() < CLOSE {
                break;
            }
            // Where the axle can't be assembled, half way there.
            let tried = loop {
                if let Some(tried) = at(next) {
                    break tried;
                }
                next = f64::midpoint(next, here.by);
                if (next - here.by).abs() < CLOSE {
                    return Some(here);
                }
            };
            before = std::mem::replace(&mut here, tried);
        }
        Some(if here.left_over.abs() <= before.left_over.abs() { here } else { before })
    }
}
