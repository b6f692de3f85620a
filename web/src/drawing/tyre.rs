//! The tyre's circles on paper, and the outline round them.

use super::scene::P;
use super::shapes::hull;
use super::{Axle, Paper};
use kernel::{State, Vec3};
use std::f64::consts::TAU;
use std::sync::LazyLock;

/// Radius of the tyre's shoulder, mm, at most half its width.
pub const SHOULDER: f64 = 40.0;

/// Points round each circle of the tyre.
const ROUND: usize = 64;

/// Sine and cosine of their angles.
static ANGLES: LazyLock<[(f64, f64); ROUND]> =
    LazyLock::new(|| std::array::from_fn(|i| (i as f64 * TAU / ROUND as f64).sin_cos()));

/// Some of these points, or all.
type Which = [bool; ROUND];
const ALL: Which = [true; ROUND];

/// What is no area, and no way outboard, on paper, px² for mm².
const NONE: f64 = 1e-9;

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
        let round = ANGLES.map(|(sin, cos)| a * cos + b * sin);
        Circles { paper, state, road: axle.road(state), round }
    }

    /// One of them on paper, `offset` outboard of the wheel plane, flattened at the road.
    pub fn circle(&self, offset: f64, radius: f64) -> impl Iterator<Item = P> {
        self.arc(offset, radius, &ALL)
    }

    /// Some of its points.
    fn arc(&self, offset: f64, radius: f64, which: &Which) -> impl Iterator<Item = P> {
        let centre = self.state.position.pose.w + self.state.attitude.spin * offset;
        self.round.iter().zip(which).filter(|(_, wanted)| **wanted).map(move |(direction, _)| {
            let point = centre + direction * radius;
            self.paper.at(Vec3::new(point.x, point.y, point.z.max(self.road)))
        })
    }

    /// Which points of the circles outboard of the wheel plane, and which of those inboard, can be corners of an outline round both.
    ///
    /// On paper all circles are one polygon, larger or smaller, and two of a size stand apart along the projected axis n. A corner is the farthest of its
    /// polygon in the directions between the normals of its two sides, and no others. Where n has no part along any of these, the like
    /// corner of the circle inboard is as far out or farther, and the other way round. This holds of what is not flattened: where a corner or one
    /// beside it may be below the road, every point counts, and so it does where the polygon is seen as a line.
    fn outward(&self, half: f64, radius: f64) -> [Which; 2] {
        let (wheel, n) = (self.state.position.pose.w, self.state.attitude.spin);
        let origin = self.paper.at(wheel);
        let flat = |d: Vec3| {
            let [x, y] = self.paper.at(wheel + d);
            [x - origin[0], y - origin[1]]
        };
        let cross = |a: P, b: P| a[0] * b[1] - a[1] * b[0];
        let (corners, axis) = (self.round.map(flat), flat(n));
        let area = cross(corners[0], corners[ROUND / 4]);
        if area.abs() < NONE {
            return [ALL; 2];
        }
        // Of each side's outward normal, the part along n; a side goes from the corner before to its own.
        let along: [f64; ROUND] = std::array::from_fn(|i| {
            let (from, to) = (corners[(i + ROUND - 1) % ROUND], corners[i]);
            -area.signum() * cross([to[0] - from[0], to[1] - from[1]], axis)
        });
        let flattened = |i: usize| wheel.z - half * n.z.abs() + radius * self.round[i].z.min(0.0) < self.road;
        let which = |counts: &dyn Fn(f64) -> bool| {
            std::array::from_fn(|i| {
                let (before, after) = ((i + ROUND - 1) % ROUND, (i + 1) % ROUND);
                counts(along[i]) || counts(along[after]) || [before, i, after].into_iter().any(flattened)
            })
        };
        [which(&|along| along > -NONE), which(&|along| along < NONE)]
    }
}

/// Circles of the tyre from its side over the shoulder to the tread: how far from the wheel plane, and radius, mm.
fn rings(axle: &Axle) -> [(f64, f64); 5] {
    let (half, radius) = (axle.layout.wheel.width / 2.0, axle.layout.wheel.free_radius);
    let shoulder = SHOULDER.min(half).min(radius / 2.0);
    [0.0, 0.4, 0.8, 1.2, std::f64::consts::FRAC_PI_2].map(|turn: f64| {
        let (sin, cos) = turn.sin_cos();
        (half - shoulder * (1.0 - cos), radius - shoulder * (1.0 - sin))
    })
}

/// The outline of the tyre: the convex outline of the projected solid, flat at the road.
pub fn outline(paper: &Paper, axle: &Axle, state: &State) -> Vec<P> {
    let (half, radius, rings) = (axle.layout.wheel.width / 2.0, axle.layout.wheel.free_radius, rings(axle));
    let circles = Circles::of(paper, axle, state);
    let [outboard, inboard] = circles.outward(half, radius);
    let mut points = Vec::with_capacity(2 * rings.len() * ROUND);
    for (offset, radius) in rings {
        points.extend(circles.arc(offset, radius, &outboard).chain(circles.arc(-offset, radius, &inboard)));
    }
    hull(points)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{App, Stand};
    use crate::content::demos;
    use crate::document::Document;
    use crate::drawing::{Arrangement, Sheet, Turn, View};

    /// The outline is the hull of all points of all circles, whatever is left out on the way, to the last digit.
    #[test]
    fn what_is_left_out_is_on_no_outline() {
        let turn = |azimuth, elevation| Arrangement::Pictorial { turn: Turn { azimuth, elevation }, tyre: true };
        let seen = [View::Front, View::Side, View::Plan].map(Arrangement::One).into_iter().chain([
            turn(35.0, 20.0),
            turn(-120.0, 70.0),
            turn(-89.9, 0.3),
            turn(10.0, -60.0),
        ]);
        let (mut all, mut kept) = (0, 0);
        for arrangement in seen {
            for layout in demos::all() {
                for (camber, toe, travel) in
                    [(0.0, 0.0, 0.0), (-0.5, 0.1, 40.0), (6.0, -3.0, -35.0), (-12.0, 8.0, 10.0)]
                {
                    let mut layout = layout.clone();
                    (layout.wheel.camber, layout.wheel.toe) = (camber, toe);
                    let mut app = App::new(Document::of(layout), Vec::new());
                    app.update(Stand::Travel(travel));
                    let picture = app.picture();
                    let sheet = Sheet::fit([900.0, 700.0], arrangement, &picture);
                    for mirrored in [false, true] {
                        let window = &sheet.windows()[0];
                        let paper = Paper { sheet: &sheet, view: window.view, window, mirrored };
                        let axle = &picture.axle;
                        let circles = Circles::of(&paper, axle, axle.now);
                        let rings = rings(axle);
                        let round = |offset, radius| circles.circle(offset, radius).collect::<Vec<P>>();
                        let points = rings.iter().flat_map(|(o, r)| [round(*o, *r), round(-o, *r)].concat()).collect();
                        assert_eq!(outline(&paper, axle, axle.now), hull(points));
                        let counted = circles.outward(axle.layout.wheel.width / 2.0, axle.layout.wheel.free_radius);
                        all += 2 * ROUND;
                        kept += counted.iter().flatten().filter(|counts| **counts).count();
                    }
                }
            }
        }
        assert!(kept * 4 < all * 3, "a quarter at least is left out: {kept} of {all} are not");
    }
}
