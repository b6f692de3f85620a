//! A small sketch of what a reading measures: not to scale and leaning more than any axle, so that it can be seen.

use super::Ink;
use super::scene::{Fill, P, Pen, Scene, Stroke};
use super::shapes::{add, scaled, sub};
use std::f64::consts::TAU;

/// Width and height of a sketch, px.
const SIZE: P = [150.0, 98.0];

/// Height of the road, px.
const ROAD: f64 = 84.0;

/// The wheel's middle, px; its contact point is straight below.
const HUB: P = [96.0, 48.0];
const CONTACT: P = [96.0, ROAD];

/// Where the steering axis meets the road and passes the hub, in front and in side view alike.
const FOOT: P = [74.0, ROAD];
const INBOARD: P = [64.0, 48.0];

/// Where the axis meets the road in plan, beside the wheel or ahead of its contact point.
const BESIDE: P = [64.0, 48.0];
const AHEAD: P = [82.0, 72.0];

/// What a reading measures is drawn in blue.
const MARK: Ink = Ink::Selected;

/// The sketch of a reading, by its name without unit; `None` for one that needs none.
pub fn sketch(reading: &str) -> Option<Scene> {
    let mut pen = Pen::default();
    match reading {
        "travel" => front(&mut pen, |pen| pen.double_arrow([126.0, 30.0], [126.0, 66.0], MARK)),
        "camber" => front(&mut pen, |pen| pen.angle(CONTACT, 66.0, [0.0, -1.0], [0.22, -1.0])),
        "bump_camber" => front(&mut pen, |pen| {
            pen.angle(CONTACT, 66.0, [0.0, -1.0], [0.22, -1.0]);
            pen.double_arrow([134.0, 30.0], [134.0, 66.0], Ink::Ink);
        }),
        "track_change" => front(&mut pen, |pen| pen.double_arrow([76.0, 91.0], [116.0, 91.0], MARK)),
        "kingpin_inclination" | "kingpin_inclination_sweep" => {
            front(&mut pen, |pen| pen.angle(FOOT, 60.0, [0.0, -1.0], sub(INBOARD, FOOT)))
        }
        "scrub_radius" => front(&mut pen, |pen| pen.span(FOOT, CONTACT)),
        "kingpin_offset_wheel_centre" => front(&mut pen, |pen| pen.span(INBOARD, HUB)),
        "screw_pitch" => front(&mut pen, |pen| pen.double_arrow([52.0, 62.0], [42.0, 16.0], MARK)),
        "wheel_load_lever_arm" => front(&mut pen, |pen| pen.force([96.0, 95.0], [96.0, 64.0])),
        "roll_centre_height" => front(&mut pen, |pen| {
            let meets = [14.0, 58.0];
            pen.line(&[CONTACT, meets], Stroke::narrow(MARK));
            pen.line(&[[14.0, 12.0], [14.0, 92.0]], Stroke::centre());
            pen.disc(meets, 3.0, Some(Fill::solid(MARK)), None);
            pen.double_arrow([24.0, 58.0], [24.0, ROAD], MARK);
        }),
        "spring_length" => front(&mut pen, |pen| pen.double_arrow([26.0, 14.0], [26.0, 62.0], MARK)),
        "motion_ratio" => front(&mut pen, |pen| {
            pen.double_arrow([26.0, 14.0], [26.0, 62.0], MARK);
            pen.double_arrow([134.0, 24.0], [134.0, 72.0], MARK);
        }),
        "half_shaft_inner_angle" => shaft(&mut pen, |pen| pen.angle(INNER, 42.0, [1.0, 0.0], sub(HUB, INNER))),
        "half_shaft_outer_angle" => shaft(&mut pen, |pen| pen.angle(HUB, 44.0, [-1.0, -0.22], sub(INNER, HUB))),
        "half_shaft_plunge" => shaft(&mut pen, |pen| pen.double_arrow([16.0, 58.0], [56.0, 50.0], MARK)),
        "wheelbase_change" => side(&mut pen, |pen| pen.double_arrow([76.0, 91.0], [116.0, 91.0], MARK)),
        "caster" | "caster_sweep" => side(&mut pen, |pen| pen.angle(FOOT, 62.0, [0.0, -1.0], sub([84.0, 48.0], FOOT))),
        "caster_offset_ground" => side(&mut pen, |pen| pen.span(FOOT, CONTACT)),
        "caster_offset_wheel_centre" => side(&mut pen, |pen| pen.span([84.0, 48.0], HUB)),
        "support_angle_brake" => side(&mut pen, |pen| pen.angle(CONTACT, 44.0, [0.0, -1.0], [-0.3, -1.0])),
        "support_angle_wheel_centre" => side(&mut pen, |pen| pen.angle(HUB, 40.0, [0.0, -1.0], [-0.3, -1.0])),
        "rack" => plan(&mut pen, BESIDE, |pen| pen.double_arrow([10.0, 20.0], [50.0, 20.0], MARK)),
        "steer" | "toe" => plan(&mut pen, BESIDE, |pen| pen.angle(HUB, 40.0, [0.0, 1.0], [-0.25, 1.0])),
        "bump_steer" => plan(&mut pen, BESIDE, |pen| {
            pen.angle(HUB, 40.0, [0.0, 1.0], [-0.25, 1.0]);
            pen.double_arrow([134.0, 30.0], [134.0, 66.0], Ink::Ink);
        }),
        "brake_lever_arm" | "drive_lever_arm" => plan(&mut pen, BESIDE, |pen| {
            pen.span(BESIDE, HUB);
            let (from, to) = ([96.0, 52.0], [96.0, 86.0]);
            if reading == "drive_lever_arm" { pen.force(from, to) } else { pen.force(to, from) }
        }),
        "side_lever_arm" => plan(&mut pen, AHEAD, |pen| {
            pen.double_arrow([74.0, 48.0], [74.0, 72.0], MARK);
            pen.line(&[HUB, [70.0, 48.0]], Stroke::narrow(MARK));
            pen.force([96.0, 48.0], [134.0, 48.0]);
        }),
        _ => return None,
    }
    Some(Scene { items: pen.items, ..Scene::new(SIZE) })
}

impl Pen {
    /// A level length between two places, with its ends drawn down.
    fn span(&mut self, a: P, b: P) {
        let y = f64::max(a[1], b[1]) - 14.0;
        for end in [a, b] {
            self.line(&[end, [end[0], y - 3.0]], Stroke::narrow(MARK));
        }
        self.double_arrow([a[0], y], [b[0], y], MARK);
    }

    /// An angle at a corner between two directions, with an arc.
    fn angle(&mut self, corner: P, radius: f64, from: P, to: P) {
        let [start, end] = [from, to].map(|[x, y]| y.atan2(x));
        for way in [start, end] {
            self.line(&[corner, add(corner, scaled([way.cos(), way.sin()], radius + 6.0))], Stroke::narrow(MARK));
        }
        let turn = (end - start + TAU / 2.0).rem_euclid(TAU) - TAU / 2.0;
        let arc = |i: i32| {
            let (sin, cos) = (start + turn * f64::from(i) / 8.0).sin_cos();
            add(corner, scaled([cos, sin], radius))
        };
        self.line(&(0..=8).map(arc).collect::<Vec<_>>(), Stroke::line(MARK, 1.6));
    }

    /// A force, its head at `to`.
    fn force(&mut self, from: P, to: P) {
        self.line(&[from, to], Stroke::line(Ink::Fault, 2.0));
        self.arrowhead(to, sub(to, from), Ink::Fault);
    }

    fn road(&mut self) {
        self.line(&[[4.0, ROAD], [146.0, ROAD]], Stroke::line(Ink::Ink, 1.4));
    }

    fn steering_axis(&mut self, low: P, through: P) {
        let along = sub(through, low);
        let line = [add(low, scaled(along, -0.15)), add(low, scaled(along, 2.1))];
        self.line(&line, Stroke { opacity: 0.75, ..Stroke::line(Ink::AxisBand, 5.0) });
        self.line(&line, Stroke { dash: &[14.0, 3.0, 2.0, 3.0], ..Stroke::line(Ink::Ink, 1.3) });
    }
}

/// A leaning wheel seen from ahead, with its axis, the road and a spring.
fn front(pen: &mut Pen, mark: impl Fn(&mut Pen)) {
    let lean = [7.9, -36.0];
    let half = [12.0, 2.6];
    let corners = [add(CONTACT, scaled(half, -1.0)), add(CONTACT, half)];
    let tyre = [corners[0], corners[1], add(corners[1], scaled(lean, 2.0)), add(corners[0], scaled(lean, 2.0))];
    pen.shape(&tyre, Some(Fill::solid(Ink::Tyre)), Some(Stroke::narrow(Ink::Ink2)));
    pen.spring([32.0, 12.0], [36.0, 64.0], 5, 5.0);
    finish(pen, INBOARD, mark);
}

/// The inner end of the half-shaft.
const INNER: P = [16.0, 66.0];

/// The same with a half-shaft.
fn shaft(pen: &mut Pen, mark: impl Fn(&mut Pen)) {
    front(pen, |pen| {
        pen.line(&[INNER, HUB], Stroke::line(Ink::Ink, 3.0));
        pen.ball(INNER);
        mark(pen);
    });
}

/// The wheel seen from the left, forward to the left.
fn side(pen: &mut Pen, mark: impl Fn(&mut Pen)) {
    pen.disc(HUB, 36.0, Some(Fill::solid(Ink::Tyre)), Some(Stroke::narrow(Ink::Ink2)));
    finish(pen, [84.0, 48.0], mark);
}

fn finish(pen: &mut Pen, inboard: P, mark: impl Fn(&mut Pen)) {
    pen.road();
    pen.steering_axis(FOOT, inboard);
    for at in [HUB, CONTACT] {
        pen.disc(at, 2.2, Some(Fill::solid(Ink::Ink)), None);
    }
    mark(pen);
}

/// A steered wheel seen from above, forward down, with the rack; the steering axis is a point.
fn plan(pen: &mut Pen, axis: P, mark: impl Fn(&mut Pen)) {
    let (along, across) = ([-8.7, 35.0], [11.6, 2.9]);
    let corner = |a: f64, b: f64| add(HUB, add(scaled(along, a), scaled(across, b)));
    let tyre = [corner(-1.0, -1.0), corner(1.0, -1.0), corner(1.0, 1.0), corner(-1.0, 1.0)];
    pen.shape(&tyre, Some(Fill::solid(Ink::Tyre)), Some(Stroke::narrow(Ink::Ink2)));
    pen.shape(
        &[[6.0, 24.0], [52.0, 24.0], [52.0, 32.0], [6.0, 32.0]],
        Some(Fill::solid(Ink::Steering)),
        Some(Stroke::wide()),
    );
    pen.disc(axis, 5.0, Some(Fill { ink: Ink::AxisBand, opacity: 0.75 }), None);
    pen.cross(axis);
    pen.disc(HUB, 2.2, Some(Fill::solid(Ink::Ink)), None);
    mark(pen);
}
