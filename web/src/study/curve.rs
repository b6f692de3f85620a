//! The states of one wheel along a movement.

use kernel::{Demand, Known, Linkage, State, sweep};

/// Steps from the middle of a curve to either end.
const STEPS: i32 = 30;

/// States along a sweep, in order; it ends early where the linkage can't follow.
#[derive(Default)]
pub struct Curve {
    /// Abscissa (mm of travel or rack) and state.
    pub points: Vec<(f64, State)>,
    /// What has been asked beside each state.
    pub known: Vec<Known>,
    /// How far it was asked to go each way.
    pub reach: f64,
}

impl Curve {
    /// From the middle out to both ends, so that a curve that breaks off on one side keeps the other. `known` begins what is asked beside a state.
    pub fn along(linkage: &Linkage, reach: f64, demand: impl Fn(f64) -> Demand, known: impl Fn() -> Known) -> Curve {
        let side = |reach: f64| {
            let at: Vec<f64> = (0..=STEPS).map(|i| reach * f64::from(i) / f64::from(STEPS)).collect();
            let solved = sweep(linkage, at.iter().map(|at| demand(*at)));
            let connected = solved.map_while(|solved| solved.ok().filter(|solved| solved.connected));
            let state = |(at, solved): (&f64, _)| (*at, State::read(linkage, &solved));
            at.iter().zip(connected).map(state).collect::<Vec<_>>()
        };
        // Both sides begin in the middle.
        let mut points: Vec<_> = side(-reach).into_iter().skip(1).rev().collect();
        points.extend(side(reach));
        Curve { known: points.iter().map(|_| known()).collect(), points, reach }
    }
}

/// Least and greatest of some values.
pub fn range(values: impl Iterator<Item = f64>) -> Option<[f64; 2]> {
    let wider =
        |range: Option<[f64; 2]>, v: f64| Some(range.map_or([v, v], |[least, most]| [v.min(least), v.max(most)]));
    values.filter(|v| v.is_finite()).fold(None, wider)
}
