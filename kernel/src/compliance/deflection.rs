//! How everything that gives way moves under a load, the springs at their lengths: the carrier, what its guides are bolted to, and each body end.
//!
//! A body end moves by δ = D p + β, p what it feels and β the movement of what it is bolted to (`wheel`).

use super::bushes::{Bushes, End};
use super::wheel::{BodyEnd, Wheel};
use super::{Compliance, Held};
use crate::axle::Axle;
use crate::frame::Vec3;
use crate::linkage::{Linkage, TRACK_ROD};
use crate::math::{Twist, Wrench};
use crate::state::State;
use nalgebra::Vector6;

/// What moves at one wheel, to first order, in the axes of a left wheel's car.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Deflection {
    /// ξ: the carrier's, about its wheel centre, mm and rad.
    pub carrier: Twist,
    /// η: the subframe's, about the origin; none without one.
    pub subframe: Twist,
    /// q: the rack's bar against its housing, mm along y.
    pub bar: f64,
    /// δ: of the body end of each guiding row, mm, that of the subframe and the bar included; a strut's two rows share one.
    pub ends: [Vec3; 5],
}

impl Deflection {
    /// Of both wheels under a wrench on each about its wheel centre, at the states of both, all as of left wheels. `None` where guides and springs
    /// don't hold a wheel.
    pub fn wrenches(
        bushes: &Bushes,
        axle: &Axle,
        states: [&State; 2],
        wrenches: &[Wrench; 2],
    ) -> Option<[Deflection; 2]> {
        both(bushes, axle.linkages(), states, wrenches).map(|(_, moves)| moves)
    }
}

/// The same, with the wheels that it is worked out by.
pub(super) fn both(
    bushes: &Bushes,
    linkages: &[Linkage; 2],
    states: [&State; 2],
    wrenches: &[Wrench; 2],
) -> Option<([Wheel; 2], [Deflection; 2])> {
    let twists = Compliance::at(bushes, linkages, states, Held::BySprings)?.twists(wrenches);
    let left = Wheel::at(&linkages[0], &bushes.ends[0], states[0], Held::BySprings)?;
    let right = Wheel::at(&linkages[1], &bushes.ends[1], states[1], Held::BySprings)?.mirrored();
    let carried = [(&left, 0), (&right, 1)].map(|(wheel, i)| wheel.g.transpose() * wrenches[i].vector());
    let eta = match &bushes.mounts {
        Some(mounts) => {
            let on_subframe = left.a.transpose() * carried[0] + right.a.transpose() * carried[1];
            (mounts + left.braced + right.braced).cholesky()?.solve(&on_subframe)
        }
        None => Vector6::zeros(),
    };
    let bar = bushes.rack * (left.b.dot(&carried[0]) + right.b.dot(&carried[1]));
    let seen = Vector6::new(eta[0], -eta[1], eta[2], -eta[3], eta[4], -eta[5]);
    let causes = [(&left, eta, bar), (&right, seen, -bar)];
    let moves = std::array::from_fn(|i| {
        let (wheel, eta, bar) = &causes[i];
        let ends = ends(&linkages[i], &bushes.ends[i], wheel, &carried[i], eta, *bar);
        Deflection { carrier: twists[i], subframe: Twist::from_vector(eta), bar: *bar, ends }
    });
    Some(([left, right], moves))
}

/// δ of each body end, from T, η and q.
fn ends(
    linkage: &Linkage,
    ends: &[End; 5],
    wheel: &Wheel,
    rows: &Vector6<f64>,
    eta: &Vector6<f64>,
    bar: f64,
) -> [Vec3; 5] {
    let subframe = Twist::from_vector(eta);
    std::array::from_fn(|i| {
        let BodyEnd { p, at, shares, by_rows, by_subframe } = &wheel.body[i];
        let x = -(by_rows * rows + by_subframe * eta).x;
        let bolted = if ends[i].carried { subframe.velocity(*at) } else { Vec3::zeros() };
        let along_y = if i == TRACK_ROD && linkage.steered { bar } else { 0.0 };
        ends[i].give * (p * rows + shares * x) + bolted + Vec3::y() * along_y
    })
}
