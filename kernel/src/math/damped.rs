//! Damped least squares where the equations may leave directions open. `bounded` is the same idea for values in ranges and unknowns in bounds: it
//! squares the slopes, for Cholesky, which needs every direction to be told; here columns stay as they are, and what is open stays where it is.

use super::least_squares;
use nalgebra::DVector;

/// Damping at first, as part of the square of the largest column: little, since a first guess is mostly a good one.
const FIRST: f64 = 1e-3;

/// Damping grows, and falls, by this factor: the usual one.
const FACTOR: f64 = 10.0;

/// The search ends with a step shorter than this: of lengths in mm a picometre.
const CLOSE: f64 = 1e-9;

/// A step shorter than this that lowers nothing is rounding's: there is no lower place.
const ROUNDING: f64 = 1e-6;

/// Steps; ten are usual.
const MOST: u32 = 500;

/// The x near `start` that makes ‖r(x)‖ least, with what `model` gives at an x: r, and the columns of its derivative J. `None` where the search does
/// not end.
///
/// Levenberg–Marquardt (K. Levenberg 1944; D. W. Marquardt 1963): the step d makes ‖r + J·d‖² + λ‖d‖² least, that is, J·d ≈ −r and √λ·d ≈ 0 in one
/// list of linear equations. A step that lowers ‖r‖ is taken and λ falls; else λ grows and the step turns towards steepest descent and gets shorter.
/// Where J leaves a direction open, √λ·d ≈ 0 keeps x from moving along it.
pub fn damped(start: Vec<f64>, model: impl Fn(&[f64]) -> (DVector<f64>, Vec<DVector<f64>>)) -> Option<Vec<f64>> {
    let mut here = start;
    let (mut left, mut columns) = model(&here);
    let largest = columns.iter().map(DVector::norm_squared).fold(0.0, f64::max);
    let mut damping = FIRST * largest;
    for _ in 0..MOST {
        let step = damped_step(&columns, &left, damping);
        let length = step.iter().map(|d| d * d).sum::<f64>().sqrt();
        let next: Vec<f64> = here.iter().zip(&step).map(|(x, d)| x + d).collect();
        let (there, slopes) = model(&next);
        let lower = there.norm_squared() < left.norm_squared();
        if lower {
            (here, left, columns) = (next, there, slopes);
        }
        if length < if lower { CLOSE } else { ROUNDING } {
            return Some(here);
        }
        damping = if lower { damping / FACTOR } else { damping * FACTOR };
    }
    None
}

/// The damped step from where r is `left`.
fn damped_step(columns: &[DVector<f64>], left: &DVector<f64>, damping: f64) -> Vec<f64> {
    let (rows, unknowns) = (left.len(), columns.len());
    let below = |i: usize| (i >= rows).then_some(i.wrapping_sub(rows));
    let damped = |(j, column): (usize, &DVector<f64>)| {
        let cell = |i: usize, _| match below(i) {
            Some(k) if k == j => damping.sqrt(),
            Some(_) => 0.0,
            None => column[i],
        };
        DVector::from_fn(rows + unknowns, cell)
    };
    let columns: Vec<DVector<f64>> = columns.iter().enumerate().map(damped).collect();
    least_squares(&columns, &DVector::from_fn(rows + unknowns, |i, _| below(i).map_or_else(|| -left[i], |_| 0.0)))
}
