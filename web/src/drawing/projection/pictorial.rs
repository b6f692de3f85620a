//! How the pictorial view lies on paper.

use super::super::Turn;
use super::{P, Picture, SCALES, Sheet, View, Window};
use kernel::frame::mirror;
use kernel::{State, Vec3};
use std::f64::consts::TAU;

/// From where the car is seen, and the point about which it is turned with its place on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Eye {
    pub turn: Turn,
    /// Whether the wheel hides what lies behind it; else it is a few rings.
    pub tyre: bool,
    pub pivot: Vec3,
    pub at: P,
}

impl Eye {
    /// Of a sheet without a pictorial view.
    pub fn none() -> Eye {
        Eye { turn: Turn::ISOMETRIC, tyre: true, pivot: Vec3::zeros(), at: [0.0, 0.0] }
    }

    pub fn project(&self, scale: f64, point: Vec3) -> P {
        let [right, up, _] = self.turn.axes();
        let from = (point - self.pivot) * scale;
        [self.at[0] + right.dot(&from), self.at[1] - up.dot(&from)]
    }

    /// Where a place on paper is in the plane through `depth` that is at right angles to the rays.
    pub fn unproject(&self, scale: f64, place: P, depth: Vec3) -> Vec3 {
        let [right, up, _] = self.turn.axes();
        let [x, y] = self.project(scale, depth);
        depth + right * ((place[0] - x) / scale) - up * ((place[1] - y) / scale)
    }
}

/// Room for the title above, and at the sides, as a part of the width, for names on leaders.
const ABOVE: f64 = 46.0;
const ASIDE: f64 = 0.07;

/// Room for the page's buttons below the view, px: on a phone they are as high as a finger needs.
pub fn below(size: P) -> f64 {
    if size[0] < 480.0 { 62.0 } else { 36.0 }
}

impl Sheet {
    /// One pictorial view alone, fitted as it is seen from there.
    pub(super) fn pictorial(size: P, turn: Turn, tyre: bool, picture: &Picture) -> Sheet {
        Sheet::pictorial_of(size, turn, tyre, points(picture))
    }

    /// The same, fitted to these points, mm.
    pub(super) fn pictorial_of(size: P, turn: Turn, tyre: bool, points: Vec<Vec3>) -> Sheet {
        let mut eye = Eye { turn, tyre, pivot: Vec3::zeros(), at: [0.0, 0.0] };
        let flat: Vec<P> = points.iter().map(|point| eye.project(1.0, *point)).collect();
        let [low, high] = [f64::min as fn(f64, f64) -> f64, f64::max]
            .map(|pick| flat.iter().copied().reduce(|a, b| [pick(a[0], b[0]), pick(a[1], b[1])]).unwrap_or_default());
        let room = [size[0] * (1.0 - 2.0 * ASIDE), size[1] - ABOVE - below(size)];
        let scales = [0, 1].map(|i| room[i] / (high[i] - low[i]).max(1.0));
        let scale = f64::min(scales[0], scales[1]).clamp(SCALES[0], SCALES[1]);
        let middle = [f64::midpoint(low[0], high[0]), f64::midpoint(low[1], high[1])];
        eye.pivot = points.iter().sum::<Vec3>() / points.len().max(1) as f64;
        let from = {
            let [x, y] = Eye { pivot: Vec3::zeros(), ..eye }.project(1.0, eye.pivot);
            [x - middle[0], y - middle[1]]
        };
        eye.at = [size[0] / 2.0 + from[0] * scale, ABOVE + room[1] / 2.0 + from[1] * scale];
        let window = Window { view: View::Pictorial, min: [0.0, 0.0], max: size, title: [24.0, 24.0] };
        Sheet { size, windows: vec![window], scale, eye, ..Sheet::empty() }
    }

    /// The same sheet seen from elsewhere, to the same scale, about the same point.
    #[must_use]
    pub fn turned(&self, turn: Turn) -> Sheet {
        Sheet { eye: Eye { turn, ..self.eye }, ..self.clone() }
    }

    /// The same with the tyre, or with rings alone.
    #[must_use]
    pub fn with_tyre(&self, tyre: bool) -> Sheet {
        Sheet { eye: Eye { tyre, ..self.eye }, ..self.clone() }
    }

    /// From where the pictorial view is seen.
    pub fn turn(&self) -> Turn {
        self.eye.turn
    }

    /// True if the wheel is more than rings there.
    pub fn shows_tyre(&self) -> bool {
        self.eye.tyre
    }
}

/// What must be seen, mm: joints and wheels, now, at rest and compared, and those of the right wheel where both are shown.
pub(super) fn points(picture: &Picture) -> Vec<Vec3> {
    let mut points = Vec::new();
    for axle in [Some(picture.axle), picture.compared].into_iter().flatten() {
        for state in [axle.rest, axle.now] {
            points.extend(axle.layout.points().filter_map(|(id, _)| axle.place(id, state)));
            points.extend(wheel(state, axle.layout.wheel.free_radius, axle.layout.wheel.width / 2.0));
        }
    }
    if let Some(axle) = picture.right {
        for state in [axle.rest, axle.now] {
            points.extend(axle.layout.points().filter_map(|(id, _)| axle.place(id, state)).map(mirror));
            points.extend(wheel(state, axle.layout.wheel.free_radius, axle.layout.wheel.width / 2.0).map(mirror));
        }
    }
    points
}

/// Points round both faces of a wheel.
fn wheel(state: &State, radius: f64, half: f64) -> impl Iterator<Item = Vec3> {
    let (w, spin, ahead) = (state.position.pose.w, state.attitude.spin, state.attitude.heading);
    let up = spin.cross(&ahead);
    (0..32).map(move |i| {
        let (sin, cos) = (f64::from(i / 2) * TAU / 16.0).sin_cos();
        w + (ahead * cos + up * sin) * radius + spin * if i % 2 == 0 { half } else { -half }
    })
}
