//! Fit: readings were measured on a car whose joints were measured too, each with its error; where are the joints?
//!
//! ```text
//! χ² = Σ ((reading(p) − measured)/error)² + Σ ((p_i − p_i measured)/σ_i)²   → least
//! ```
//! Camber and toe at rest are fitted beside them without any expectation: a tape does not measure them. Near the least, the numbers are known to the
//! inverse of the normal matrix, (JᵀJ)⁻¹: what is as uncertain then as it was before, the readings say nothing about.

use super::{Design, Errors, NoSearch, Outcome, Parameter, Varied};
use crate::layout::{Entry, Layout, LeftOrRight, Read, Sides};
use crate::math::{Stopped, Values, bounded};
use nalgebra::{DMatrix, DVector};

/// What was measured.
#[derive(Clone)]
pub struct Measured {
    /// The readings: what, where, its value and its error, one standard deviation.
    pub values: Vec<(Outcome, f64, f64)>,
    /// The measured numbers' errors.
    pub errors: Errors,
}

/// So many readings can be fitted to.
const MOST_VALUES: usize = 1000;

/// The layout that fits best.
#[derive(Clone, Debug)]
pub struct Fitted {
    /// It.
    pub layout: Layout,
    /// Every number that was fitted, camber and toe last.
    pub numbers: Vec<Corrected>,
    /// What is left of each reading over its error: reading less measured.
    pub left: Vec<f64>,
    /// χ².
    pub chi2: f64,
    /// Why the search ended.
    pub stopped: Stopped,
    /// After so many steps.
    pub steps: u32,
}

/// A number as it was measured, and as it fits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corrected {
    /// Which.
    pub parameter: Parameter,
    /// As it was measured, mm or degrees.
    pub measured: f64,
    /// Its standard deviation then; none for camber and toe.
    pub deviation: Option<f64>,
    /// As it fits.
    pub fitted: f64,
    /// Its standard deviation now; `None` where nothing determines it.
    pub left: Option<f64>,
}

/// A number whose deviation stays above this part of what it was is one that the readings say nothing about.
const UNTOUCHED: f64 = 0.95;

impl Corrected {
    /// True where the readings say nothing about it.
    pub fn is_untouched(&self) -> bool {
        match (self.deviation, self.left) {
            (Some(before), Some(now)) => now > UNTOUCHED * before,
            (_, left) => left.is_none(),
        }
    }
}

impl Measured {
    /// Reads a file of what was measured on this axle. The error is a sentence.
    pub fn from_json(text: &str, layout: &Layout) -> Result<Measured, String> {
        super::file(text, "measured readings", |json| {
            let file = Entry::new("", json, &["values", "errors"])?;
            let items = file.need("values")?.as_array().ok_or("“values” must be a list [ … ]")?;
            if items.is_empty() || items.len() > MOST_VALUES {
                return Err(format!("“values” must have from 1 to {MOST_VALUES} entries; it has {}", items.len()));
            }
            let known = ["reading", "side", "travel", "rack", "value", "error"];
            let value = |(i, item)| value(&Entry::new(&format!("values[{i}]"), item, &known)?);
            let values = items.iter().enumerate().map(value).collect::<Read<_>>()?;
            let errors = Entry::new("errors", file.need("errors")?, &["kind", "points", "lengths", "distribution"])?;
            Ok(Measured { values, errors: Errors::read(&errors, layout)? })
        })
    }

    /// The layout that fits best: what was measured of it is the layout as it is. Errors are of both sides alike.
    pub fn fit(&self, layout: &Layout) -> Result<Fitted, NoSearch> {
        let free = [Parameter::Design(Design::Camber), Parameter::Design(Design::Toe)];
        let measured = self.errors.numbers.iter().filter(|(number, _)| !free.contains(number));
        let mut deviations: Vec<Option<f64>> =
            measured.clone().map(|(_, most)| Some(self.errors.distribution.deviation(*most))).collect();
        deviations.extend([None, None]);
        let parameters: Vec<Parameter> = measured.map(|(number, _)| *number).chain(free).collect();
        let outcomes: Vec<Outcome> = self.values.iter().map(|(outcome, ..)| *outcome).collect();
        let numbers = parameters.iter().map(|parameter| (*parameter, Sides::Both)).collect();
        let mut varied = Varied::new(layout, numbers, &outcomes);
        let from = varied.begun(&outcomes)?;
        let mut problem = Problem { measured: self, varied, from: from.clone(), deviations };
        let unbounded = vec![[f64::NEG_INFINITY, f64::INFINITY]; from.len()];
        let Some(least) = bounded(&mut problem, &from, &unbounded) else {
            return Err(NoSearch::NoReading(outcomes[0].quantity.column(), [outcomes[0].travel, outcomes[0].rack]));
        };
        let left = problem.left(&least.x, &least.residuals);
        let corrected = |i: usize| Corrected {
            parameter: parameters[i],
            measured: from[i],
            deviation: problem.deviations[i],
            fitted: least.x[i],
            left: left[i],
        };
        Ok(Fitted {
            numbers: (0..from.len()).map(corrected).collect(),
            left: least.residuals.iter().take(self.values.len()).copied().collect(),
            chi2: least.residuals.norm_squared(),
            stopped: least.stopped,
            steps: least.steps,
            layout: problem.varied.layout(&least.x).clone(),
        })
    }
}

fn value(part: &Entry) -> Read<(Outcome, f64, f64)> {
    let quantity = super::quantity(part)?;
    let error = part.number("error")?;
    if error <= 0.0 {
        return Err(format!("“{}” is {error}; it must be more than 0", part.path("error")));
    }
    let (travel, rack) = (part.number_or("travel", 0.0)?, part.number_or("rack", 0.0)?);
    let side = part.word_or("side", &LeftOrRight::BOTH.map(|side| (side, side.name())))?;
    Ok((Outcome { quantity, side, travel, rack }, part.number("value")?, error))
}

/// Residuals: readings over their errors, then measured numbers over theirs.
struct Problem<'a> {
    measured: &'a Measured,
    varied: Varied,
    from: Vec<f64>,
    deviations: Vec<Option<f64>>,
}

impl Problem<'_> {
    /// The standard deviation of every number where the search ended; `None` of all that a direction without any information has a part in.
    fn left(&mut self, x: &[f64], here: &DVector<f64>) -> Vec<Option<f64>> {
        let slopes = self.slopes(x, here);
        // Columns of size 1, so that units do not matter; one that is nothing stays so.
        let size = |i: usize| slopes.column(i).norm();
        let sizes: Vec<f64> = (0..x.len()).map(|i| if size(i) > NOTHING { size(i) } else { 0.0 }).collect();
        let scaled =
            DMatrix::from_fn(
                slopes.nrows(),
                x.len(),
                |row, i| if sizes[i] > 0.0 { slopes[(row, i)] / sizes[i] } else { 0.0 },
            );
        let normal = scaled.tr_mul(&scaled).symmetric_eigen();
        let variance = |i: usize| {
            let parts = (0..x.len()).map(|k| (normal.eigenvectors[(i, k)].powi(2), normal.eigenvalues[k]));
            let mut sum = 0.0;
            for (part, information) in parts {
                if information > NO_INFORMATION {
                    sum += part / information;
                } else if part > NO_INFORMATION {
                    return None;
                }
            }
            (sizes[i] > 0.0).then(|| sum.sqrt() / sizes[i])
        };
        (0..x.len()).map(variance).collect()
    }
}

/// A number that does less than this, in errors per mm or degree, is told to no better than 1000 mm or degrees: not at all.
const NOTHING: f64 = 1e-3;

/// Directions of columns of size 1 with less information than this are those that slopes over small steps can't tell from none: slopes are true to
/// 1e-7, their squares to 1e-14.
const NO_INFORMATION: f64 = 1e-12;

impl Values for Problem<'_> {
    fn at(&mut self, x: &[f64]) -> Option<DVector<f64>> {
        let values = self.varied.at(x).ok()?;
        let mut residuals = Vec::with_capacity(values.len() + x.len());
        for (value, (_, measured, error)) in values.into_iter().zip(&self.measured.values) {
            residuals.push((value? - measured) / error);
        }
        let numbers = x.iter().zip(&self.from).zip(&self.deviations);
        residuals
            .extend(numbers.filter_map(|((x, from), deviation)| deviation.map(|deviation| (x - from) / deviation)));
        Some(DVector::from_vec(residuals))
    }

    fn slopes(&mut self, x: &[f64], here: &DVector<f64>) -> DMatrix<f64> {
        super::varied::slopes(self, x, here)
    }
}
