//! The wheel as it is drawn: its tyre's edges, its axis, the road.

use super::labels::{Labels, Rank};
use super::scene::{Fill, Grab, Handle, P, Pen, Stroke, Text};
use super::shapes::add;
use super::tyre::{Circles, SHOULDER, outline};
use super::{Axle, Ink, Paper, Picture, Turn, View};
use kernel::{State, Vec3};

/// Rim radius as part of the tyre's; for the picture only.
const RIM: f64 = 0.62;

/// Tyre and wheel axis.
pub fn draw(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State, outline: &[P]) {
    let edge = Stroke::line(Ink::Ink2, 0.9);
    pen.shape(outline, Some(Fill::solid(Ink::Tyre)), Some(edge));
    let (half, radius) = (axle.layout.wheel.width / 2.0, axle.layout.wheel.free_radius);
    let tread = half - SHOULDER.min(half);
    let circles = Circles::of(paper, axle, state);
    for (offset, radius) in [(tread, radius), (-tread, radius), (half, radius * RIM)] {
        let round: Vec<P> = circles.circle(offset, radius).collect();
        if paper.view == View::Side || radius == axle.layout.wheel.free_radius {
            pen.shape(&round, None, Some(edge));
        }
    }
    let (w, n) = (state.position.pose.w, state.attitude.spin);
    let [a, b] = match paper.view {
        View::Side => [state.attitude.heading, Vec3::z()].map(|d| d * 1.08 * radius),
        View::Front => [n, n.cross(&state.attitude.heading)].map(|d| d * half * 1.6),
        View::Plan | View::Pictorial => [n * half * 1.9, state.attitude.heading * radius * 1.12],
    };
    let lines: &[Vec3] = if paper.view == View::Front { &[a] } else { &[a, b] };
    for d in lines {
        pen.line(&[paper.at(w - d), paper.at(w + d)], Stroke::centre());
    }
}

/// The wheel at rest, as a ghost.
pub fn ghost(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State) {
    pen.shape(&outline(paper, axle, state), None, Some(Stroke::line(Ink::Ghost, 0.8)));
}

/// The tyre of the axle laid over, in its tint and kind of line.
pub fn compared(pen: &mut Pen, paper: &Paper, axle: &Axle) {
    pen.shape(&outline(paper, axle, axle.now), None, Some(Stroke { width: 0.8, ..Stroke::compared() }));
}

/// The arrow beside the wheel that says it can be moved up and down, and the outline by which it is taken.
pub fn handle(pen: &mut Pen, paper: &Paper, axle: &Axle, outline: &[P], handles: &mut Vec<Handle>) {
    if paper.view == View::Plan {
        return;
    }
    handles.insert(0, Handle { grab: Grab::Wheel, view: paper.view, outline: outline.to_vec() });
    if paper.view == View::Front {
        let out = axle.now.position.pose.w + Vec3::y() * (axle.layout.wheel.width * 0.5);
        let [x, y] = add(paper.at(out), [12.0, 44.0]);
        pen.double_arrow([x, y - 22.0], [x, y + 22.0], Ink::Selected);
    }
}

/// The road under the wheel now, with ground hatching, and where it was at rest.
pub fn road(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    if paper.view == View::Plan {
        return;
    }
    let axle = &picture.axle;
    let [left, right] = [paper.window.min[0] + 20.0, road_end(paper, axle)];
    let height = |state| paper.at(Vec3::new(0.0, 0.0, axle.road(state)))[1];
    let (now, rest) = (height(axle.now), height(axle.rest));
    if (now - rest).abs() > 1.0 {
        pen.line(&[[left, rest], [right, rest]], Stroke::line(Ink::Ghost, 0.8));
    }
    let mut x = left;
    while x < right {
        pen.line(&[[x + 7.0, now], [x, now + 8.0]], Stroke::narrow(Ink::Hatch));
        x += 7.0;
    }
    pen.line(&[[left, now], [right, now]], Stroke::line(Ink::Ink, 1.8));
    labels.keep_out([left, now - 1.0, right, now + 8.0]);
    if paper.view == View::Front {
        let beyond = axle.layout.stops.and_then(|stops| stops.beyond(axle.now.travel));
        let beyond = beyond.map_or(String::new(), |by| {
            let stop = if by > 0.0 { "bump" } else { "rebound" };
            format!(", {} beyond the {stop} stop", picture.units.length(by.abs()))
        });
        let text = format!("road at travel {}{beyond}", picture.units.signed_length(axle.now.travel));
        let text = Text { ink: Ink::Ink2, ..Text::at([left + 8.0, now - 7.0], &text) };
        labels.put(Rank::Hint, text);
    }
}

fn road_end(paper: &Paper, axle: &Axle) -> f64 {
    let window = paper.window.max[0] - 20.0;
    if paper.view == View::Front {
        let out = paper.at(Vec3::y() * (axle.now.position.pose.w.y + axle.layout.wheel.width * 0.75))[0];
        window.min(out.max(paper.window.min[0] + 40.0))
    } else {
        window
    }
}

/// The wheel in space: the tyre as a flat fill with its tread's edges and the rim's, thin and pale where they lie behind, and its axis; or, for one
/// who wants to look through it, these rings alone.
pub fn in_space(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State, outline: &[P]) {
    let edge = Stroke::line(Ink::Ink2, 0.9);
    if paper.sheet.shows_tyre() {
        pen.shape(outline, Some(Fill::solid(Ink::Tyre)), Some(edge));
    }
    let (half, radius) = (axle.layout.wheel.width / 2.0, axle.layout.wheel.free_radius);
    let near = state.attitude.spin.dot(&paper.turn().axes()[2]).signum();
    let circles = Circles::of(paper, axle, state);
    let tread = half - SHOULDER.min(half);
    for (offset, radius) in
        [(-near * tread, radius), (-near * half, radius * RIM), (near * tread, radius), (near * half, radius * RIM)]
    {
        let stroke = if offset * near > 0.0 { edge } else { Stroke::line(Ink::Rule, 0.9) };
        pen.shape(&circles.circle(offset, radius).collect::<Vec<_>>(), None, Some(stroke));
    }
    let (w, out) = (state.position.pose.w, state.attitude.spin * half * 2.6);
    pen.line(&[paper.at(w - out), paper.at(w + out)], Stroke::centre());
}

/// True if the wheel stands between a point and whoever looks: the tyre, a ring with the rim's opening in it, or the wheel disc, which closes the
/// opening at the outer face. Along the ray from the point, in the wheel's own frame: `s` along its axis, `p` across it.
pub fn hides(axle: &Axle, state: &State, turn: Turn, point: Vec3) -> bool {
    let (n, [_, _, v]) = (state.attitude.spin, turn.axes());
    let (half, radius) = (axle.layout.wheel.width / 2.0, axle.layout.wheel.free_radius);
    let from = point - state.position.pose.w;
    let (s, vs) = (from.dot(&n), v.dot(&n));
    let (p, vp) = (from - n * s, v - n * vs);
    let to_face = (half - s) / vs;
    if to_face > 0.0 && to_face.is_finite() && (p + vp * to_face).norm() < radius * RIM {
        return true;
    }
    // Where the ray is no farther from the axis than a radius: p + t·vp, a quadratic in t.
    let within = |radius: f64| {
        let (a, b, c) = (vp.dot(&vp), p.dot(&vp), p.dot(&p) - radius * radius);
        let root = b * b - a * c;
        if a < ALONG {
            (c < 0.0).then_some([0.0, f64::INFINITY])
        } else {
            (root > 0.0).then(|| [-1.0, 1.0].map(|k| (k * root.sqrt() - b) / a))
        }
    };
    let slab = if vs.abs() < ALONG {
        (s.abs() < half).then_some([0.0, f64::INFINITY])
    } else {
        let [a, b] = [-half, half].map(|face| (face - s) / vs);
        Some([a.min(b), a.max(b)])
    };
    let (Some([in_slab, out_slab]), Some([into, out])) = (slab, within(radius)) else { return false };
    let (begin, end) = (in_slab.max(into).max(0.0), out_slab.min(out));
    let opening = within(radius * RIM).map_or(0.0, |[into, out]| (out.min(end) - into.max(begin)).max(0.0));
    end - begin - opening > GRAZING
}

/// A direction with less than this of a component, squared or not, has none.
const ALONG: f64 = 1e-9;

/// A ray that runs through less of the tyre than this, mm, only touches it.
const GRAZING: f64 = 1.0;
