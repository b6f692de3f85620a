//! The tyre's circles on paper, and the outline round them.

use super::scene::P;
use super::shapes::hull;
use super::{Axle, Paper};
use kernel::{State, Vec3};
use std::f64::consts::TAU;

/// Radius of the tyre's shoulder, mm, at most half its width.
pub const SHOULDER: f64 = 40.0;

/// Points round each circle of the tyre.
const ROUND: usize = 64;

/// Circles about a wheel's axis.
pub struct Circles<'a> {
    paper: &'a Paper<'a>,
    state: &'a State,
    /// Height of the road, mm.
    road: f64,
    /// Directions from the wheel centre to points all round.
    round: [Vec3; ROUND],
}

impl<'a> Circles<'a> {
    /// Of a wheel at a state.
    pub fn of(paper: &'a Paper, axle: &Axle, state: &'a State) -> Circles<'a> {
        let (a, b) = (state.attitude.heading, state.attitude.spin.cross(&state.attitude.heading));
        let round = std::array::from_fn(|i| {
            let (sin, cos) = (i as f64 * TAU / ROUND as f64).sin_cos();
            a * cos + b * sin
        });
        Circles { paper, state, road: axle.road(state), round }
    }

    /// One of them on paper, `offset` outboard of the wheel plane, flattened at the road.
    pub fn circle(&self, offset: f64, radius: f64) -> impl Iterator<Item = P> {
        let centre = self.state.position.pose.w + self.state.attitude.spin * offset;
        self.round.iter().map(move |direction| {
            let point = centre + direction * radius;
            self.paper.at(Vec3::new(point.x, point.y, point.z.max(self.road)))
        })
    }
}

/// The outline of the tyre: the convex outline of the projected solid, flat at the road.
pub fn outline(paper: &Paper, axle: &Axle, state: &State) -> Vec<P> {
    let (half, radius) = (axle.layout.wheel.width / 2.0, axle.layout.wheel.free_radius);
    let shoulder = SHOULDER.min(half).min(radius / 2.0);
    let ring = |turn: f64| {
        let (sin, cos) = turn.sin_cos();
        (half - shoulder * (1.0 - cos), radius - shoulder * (1.0 - sin))
    };
    let rings = [0.0, 0.4, 0.8, 1.2, std::f64::consts::FRAC_PI_2].map(ring);
    let circles = Circles::of(paper, axle, state);
    let mut points = Vec::with_capacity(2 * rings.len() * ROUND);
    for (offset, radius) in rings {
        points.extend(circles.circle(offset, radius).chain(circles.circle(-offset, radius)));
    }
    hull(points)
}
