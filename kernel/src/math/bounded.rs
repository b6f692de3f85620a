//! Least squares within bounds, of values that are not linear, each of which is to be in a range (of no width: to be one number).
//!
//! With v the values, J their slopes and r how far each lies outside its range, the step s makes least what the linear values would leave,
//! ```text
//! ‖r(v + J·s)‖²/2 + λ/2·sᵀ·diag(JᵀJ)·s      over the unknowns that are free: not at a bound that the way down pushes against
//! x ← the nearest point within the bounds to x + s
//! ```
//! (K. Levenberg 1944, D. Marquardt 1963; J. Nocedal, S. Wright, *Numerical Optimization*, 2nd ed., Springer 2006, ch. 10 and 16.7). It is taken if it
//! lowers ‖r‖²/2; λ falls where the fall was as foretold and grows where it was not, by the rule of H. B. Nielsen (*Damping Parameter in Marquardt's
//! Method*, Technical University of Denmark, IMM-REP-1999-05). The least of a step is found by Newton's rule: which values lie
//! outside decides which squares count, so it is solved again until these are the same.

use nalgebra::{DMatrix, DVector};

/// What is to be made least.
pub trait Values {
    /// The values at a point, in units of what matters; `None` where there are none.
    fn at(&mut self, x: &[f64]) -> Option<DVector<f64>>;

    /// Their slopes there, a column an unknown.
    fn slopes(&mut self, x: &[f64], here: &DVector<f64>) -> DMatrix<f64>;

    /// In which range the value of a row should be; 0 if nothing else is said.
    fn range(&self, _row: usize) -> [f64; 2] {
        [0.0, 0.0]
    }
}

/// How far a value lies outside a range, with its sign; 0 inside.
pub fn outside(value: f64, [least, most]: [f64; 2]) -> f64 {
    (value - most).max(0.0) + (value - least).min(0.0)
}

/// Where the search ended.
#[derive(Clone, Debug)]
pub struct Least {
    /// The unknowns.
    pub x: Vec<f64>,
    /// How far each value lies outside its range there.
    pub residuals: DVector<f64>,
    /// Steps that were taken.
    pub steps: u32,
    /// Why it ended.
    pub stopped: Stopped,
}

/// Why a search ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stopped {
    /// No step promises to lower the sum further.
    AtTheLeast,
    /// No step, however short, lowers it: the way ends where values end.
    NoFurther,
    /// After the greatest number of steps.
    MostSteps,
}

/// A search takes some ten steps; one along a valley that does not end, more.
const MOST_STEPS: u32 = 200;

/// The first damping: nearly a Gauss–Newton step.
const DAMPING: f64 = 1e-3;

/// Damping beyond this makes steps too short to matter.
const MOST_DAMPING: f64 = 1e12;

/// The search ends with a step that promises to lower the sum by less than this part of it: its last digits.
const ENOUGH: f64 = 1e-9;

/// Nor is a sum lowered that is as small as this: values are in units of what matters.
const NOTHING: f64 = 1e-24;

/// So often which values lie outside is looked at again in one step.
const MOST_LOOKS: u32 = 12;

/// Searches from a point within the bounds, one pair an unknown; `None` where there are no values to begin with.
pub fn bounded(problem: &mut impl Values, start: &[f64], bounds: &[[f64; 2]]) -> Option<Least> {
    let mut search = Bounded::new(problem, start, bounds)?;
    loop {
        if let Some(least) = search.step(problem) {
            return Some(least);
        }
    }
}

/// A search that goes on step by step.
pub struct Bounded {
    bounds: Vec<[f64; 2]>,
    ranges: Vec<[f64; 2]>,
    x: Vec<f64>,
    values: DVector<f64>,
    damping: f64,
    growth: f64,
    steps: u32,
}

impl Bounded {
    /// So many calls of [`step`](Bounded::step) end it at the latest.
    pub const MOST: u32 = MOST_STEPS + 1;

    /// Begins at the nearest point within the bounds; `None` where there are no values.
    pub fn new(problem: &mut impl Values, start: &[f64], bounds: &[[f64; 2]]) -> Option<Bounded> {
        let x = kept(start, bounds);
        let values = problem.at(&x)?;
        let ranges = (0..values.len()).map(|row| problem.range(row)).collect();
        Some(Bounded { bounds: bounds.to_vec(), ranges, x, values, damping: DAMPING, growth: 2.0, steps: 0 })
    }

    /// Takes one step; where the search ends, its end.
    pub fn step(&mut self, problem: &mut impl Values) -> Option<Least> {
        if self.steps == MOST_STEPS {
            return Some(self.end(Stopped::MostSteps));
        }
        let residuals = left(&self.values, &self.ranges);
        let sum = residuals.norm_squared() / 2.0;
        let slopes = problem.slopes(&self.x, &self.values);
        let gradient = slopes.tr_mul(&residuals);
        let moves =
            |i: &usize| slopes.column(*i).norm_squared() > 0.0 && is_free(self.x[*i], self.bounds[*i], gradient[*i]);
        let free: Vec<usize> = (0..self.x.len()).filter(moves).collect();
        let model = Model { values: &self.values, ranges: &self.ranges, slopes: slopes.select_columns(&free) };
        loop {
            let step = model.step(self.damping);
            let mut there = self.x.clone();
            free.iter().zip(step.iter()).for_each(|(i, by)| there[*i] += by);
            let there = kept(&there, &self.bounds);
            let taken = DVector::from_iterator(free.len(), free.iter().map(|i| there[*i] - self.x[*i]));
            let foretold = sum - model.sum(&taken);
            if foretold.abs() <= ENOUGH * sum + NOTHING {
                return Some(self.end(Stopped::AtTheLeast));
            }
            let now = problem.at(&there);
            let fall =
                now.as_ref().map(|now| sum - left(now, &self.ranges).norm_squared() / 2.0).filter(|fall| *fall > 0.0);
            if let (Some(now), Some(fall)) = (now, fall) {
                self.damping *= (1.0 - (2.0 * fall / foretold - 1.0).powi(3)).max(1.0 / 3.0);
                self.growth = 2.0;
                (self.x, self.values) = (there, now);
                self.steps += 1;
                return None;
            }
            self.damping *= self.growth;
            self.growth *= 2.0;
            if self.damping > MOST_DAMPING {
                return Some(self.end(Stopped::NoFurther));
            }
        }
    }

    fn end(&self, stopped: Stopped) -> Least {
        Least { x: self.x.clone(), residuals: left(&self.values, &self.ranges), steps: self.steps, stopped }
    }
}

/// The nearest point within the bounds.
fn kept(x: &[f64], bounds: &[[f64; 2]]) -> Vec<f64> {
    x.iter().zip(bounds).map(|(x, [least, most])| x.clamp(*least, *most)).collect()
}

fn left(values: &DVector<f64>, ranges: &[[f64; 2]]) -> DVector<f64> {
    DVector::from_iterator(values.len(), values.iter().zip(ranges).map(|(value, range)| outside(*value, *range)))
}

/// False at a bound that the way down would leave.
fn is_free(x: f64, [least, most]: [f64; 2], gradient: f64) -> bool {
    !(x <= least && gradient > 0.0 || x >= most && gradient < 0.0)
}

/// The values as they would be if they were linear.
struct Model<'a> {
    values: &'a DVector<f64>,
    ranges: &'a [[f64; 2]],
    slopes: DMatrix<f64>,
}

impl Model<'_> {
    /// ‖r‖²/2 after a step.
    fn sum(&self, step: &DVector<f64>) -> f64 {
        left(&(self.values + &self.slopes * step), self.ranges).norm_squared() / 2.0
    }

    /// The damped step.
    fn step(&self, damping: f64) -> DVector<f64> {
        let unknowns = self.slopes.ncols();
        let weights = DVector::from_fn(unknowns, |i, _| damping * self.slopes.column(i).norm_squared());
        let mut step = DVector::zeros(unknowns);
        let mut before = Vec::new();
        for _ in 0..MOST_LOOKS {
            let there = self.values + &self.slopes * &step;
            let counts = |(value, [least, most]): (&f64, &[f64; 2])| least == most || value < least || value > most;
            let counted: Vec<bool> = there.iter().zip(self.ranges).map(counts).collect();
            if counted == before {
                break;
            }
            let rows: Vec<usize> = (0..counted.len()).filter(|row| counted[*row]).collect();
            let slopes = self.slopes.select_rows(&rows);
            let residuals = left(&there, self.ranges).select_rows(&rows);
            let gradient = slopes.tr_mul(&residuals) + weights.component_mul(&step);
            let square = slopes.tr_mul(&slopes) + DMatrix::from_diagonal(&weights);
            let Some(cholesky) = square.cholesky() else { break };
            step -= cholesky.solve(&gradient);
            before = counted;
        }
        step
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    type Of = fn(&[f64]) -> Vec<f64>;

    /// Values of a test, with slopes by central differences.
    struct Case(Of, Vec<[f64; 2]>);

    impl Values for Case {
        fn at(&mut self, x: &[f64]) -> Option<DVector<f64>> {
            Some(DVector::from_vec(self.0(x)))
        }

        fn slopes(&mut self, x: &[f64], here: &DVector<f64>) -> DMatrix<f64> {
            let mut slopes = DMatrix::zeros(here.len(), x.len());
            for i in 0..x.len() {
                let step = 1e-6 * x[i].abs().max(1e-3);
                let at = |by: f64| {
                    let mut there = x.to_vec();
                    there[i] += by;
                    DVector::from_vec(self.0(&there))
                };
                slopes.set_column(i, &((at(step) - at(-step)) / (2.0 * step)));
            }
            slopes
        }

        fn range(&self, row: usize) -> [f64; 2] {
            self.1.get(row).copied().unwrap_or_default()
        }
    }

    const FREE: [f64; 2] = [f64::NEG_INFINITY, f64::INFINITY];

    fn search(of: Of, start: &[f64], bounds: &[[f64; 2]]) -> Least {
        bounded(&mut Case(of, Vec::new()), start, bounds).expect("values at the start")
    }

    /// Test functions of J. Moré, B. Garbow, K. Hillstrom, *Testing Unconstrained Optimization Software*, ACM TOMS 7 (1981) 17–41, with the least sums of
    /// squares given there (numbers 1, 8 and 15; quoted from memory, their digits reproduced by this search).
    #[test]
    fn sums_are_the_least_that_are_published() {
        let rosenbrock: Of = |x| vec![10.0 * (x[1] - x[0] * x[0]), 1.0 - x[0]];
        let least = search(rosenbrock, &[-1.2, 1.0], &[FREE; 2]);
        assert!((least.x[0] - 1.0).abs() < 1e-6 && (least.x[1] - 1.0).abs() < 1e-6, "{least:?}");

        let kowalik_osborne: Of = |x| {
            let y = [0.1957, 0.1947, 0.1735, 0.1600, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246];
            let u = [4.0, 2.0, 1.0, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625];
            let model = |u: f64| x[0] * (u * u + u * x[1]) / (u * u + u * x[2] + x[3]);
            y.iter().zip(u).map(|(y, u)| y - model(u)).collect()
        };
        let least = search(kowalik_osborne, &[0.25, 0.39, 0.415, 0.39], &[FREE; 4]);
        assert!((least.residuals.norm_squared() - 3.07505e-4).abs() < 1e-9, "{least:?}");

        let bard: Of = |x| {
            let y = [0.14, 0.18, 0.22, 0.25, 0.29, 0.32, 0.35, 0.39, 0.37, 0.58, 0.73, 0.96, 1.34, 2.10, 4.39];
            let model = |u: f64| x[0] + u / ((16.0 - u) * x[1] + u.min(16.0 - u) * x[2]);
            y.iter().zip(1..).map(|(y, i)| y - model(f64::from(i))).collect()
        };
        let least = search(bard, &[1.0; 3], &[FREE; 3]);
        assert!((least.residuals.norm_squared() - 8.21487e-3).abs() < 1e-8, "{least:?}");
    }

    /// Of a bowl around (3, 2), the nearest point in a box lies at its edge.
    #[test]
    fn bounds_are_kept() {
        let least = search(|x| vec![x[0] - 3.0, 2.0 * (x[1] - 2.0)], &[0.0, 0.0], &[[-1.0, 1.0], [-9.0, 9.0]]);
        assert!(least.x[0] == 1.0 && (least.x[1] - 2.0).abs() < 1e-6, "{least:?}");
        assert_eq!(least.stopped, Stopped::AtTheLeast);
    }

    /// What is to be in a range is left where it is there, and brought to the nearest end from outside.
    #[test]
    fn a_range_ends_at_its_ends() {
        let of: Of = |x| vec![x[0] + x[1], x[0] - x[1]];
        let mut case = Case(of, vec![[1.0, 5.0], [-1.0, 1.0]]);
        let least = bounded(&mut case, &[1.5, 1.0], &[FREE; 2]).expect("values");
        assert_eq!(least.x, [1.5, 1.0]);
        let least = bounded(&mut case, &[4.0, 4.0], &[FREE; 2]).expect("values");
        assert!((least.x[0] + least.x[1] - 5.0).abs() < 1e-9 && least.residuals.norm() < 1e-9, "{least:?}");
    }
}
