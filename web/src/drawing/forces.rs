//! Forces on the drawing, in scale: what loads the axle, and what its members carry.
//!
//! A load is a heavy arrow with its tip where it acts. A member in tension has a continuous line beside it whose heads point away from
//! each other, one in compression a dashed line whose heads point at each other: line and sign tell, not colour.

use super::labels::{Labels, Rank};
use super::members::rods;
use super::scene::{Anchor, P, Pen, Stroke, Text};
use super::shapes::{across, add, length, mix, scaled, sub, unit};
use super::{Ink, Paper, Picture, View};
use crate::study::loaded::MOST_TILT;
use crate::text::number::{fixed, signed};
use kernel::{PointId, SEAT, Vec3};

/// The longest arrow, px, and the scales to choose from, px per kN.
const LONGEST: f64 = 96.0;
const SCALES: [f64; 8] = [50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.1];

/// A force smaller than this, N, is none on paper.
const NONE: f64 = 0.5;

/// A member that looks shorter than this on paper, px, is seen too much end-on for its force to be read.
const SHORTEST: f64 = 30.0;

/// How far beside a member its force is drawn, px.
const BESIDE: f64 = 8.0;

/// The forces of a view.
pub fn draw(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    let Some(loaded) = picture.loads else { return };
    let axle = &picture.axle;
    let state = axle.now;
    let (w, attitude) = (state.position.pose.w, &state.attitude);
    let corner = &loaded.corner;
    let centre = attitude.along(loaded.load.centre - Vec3::z() * loaded.load.weight);
    let mut outside = vec![(w + attitude.contact, attitude.along(loaded.load.road)), (w, centre)];
    outside.extend(corner.body.iter().filter(|joint| joint.id == PointId::StrutTop).map(|j| (w + j.at, -j.force)));
    let most = outside.iter().map(|(_, force)| force.norm()).chain(corner.members.rows.map(f64::abs));
    let most = most.fold(corner.members.spring.abs(), f64::max);
    let scale = SCALES.into_iter().find(|scale| most / 1000.0 * scale <= LONGEST).unwrap_or(SCALES[7]) / 1000.0;
    for (at, force) in outside {
        outer(pen, labels, paper, at, force, scale);
    }
    for rod in rods(axle, state) {
        let row = axle.linkage.rows().iter().position(|row| row.member == rod.member);
        if let Some(force) = row.map(|row| corner.members.rows[row]) {
            member(pen, labels, paper, [rod.inner, rod.outer], force, scale);
        }
    }
    side_free(pen, labels, paper, picture);
    let ends = axle.linkage.spring().ends(&state.position.pose);
    member(pen, labels, paper, ends, -corner.members.spring, scale);
    if paper.view == View::Front {
        legend(labels, paper, loaded.name, scale);
    }
}

/// The line on which a spring would take the side force off the strut, from the top mount to its seat, with the seat's offset.
fn side_free(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    let Some(spring) = picture.loads.and_then(|loaded| loaded.side_free) else { return };
    let Some(offset) = spring.seat_offset(SEAT).filter(|_| spring.tilt() <= MOST_TILT) else { return };
    let top = picture.axle.now.position.pose.w + spring.top;
    let beside = top + spring.strut * SEAT;
    let [from, to, strut] = [top, beside + offset, beside].map(|place| paper.at(place));
    if length(sub(to, from)) < SHORTEST {
        return;
    }
    pen.line(&[from, to], Stroke { ink: Ink::Ink, ..Stroke::centre() });
    pen.line(&[strut, to], Stroke::narrow(Ink::Ink2));
    if paper.view == View::Front {
        let words =
            format!("no side force: spring tilt {}°, seat {}", fixed(spring.tilt(), 1), fixed(offset.norm(), 0));
        let text = |dx: f64, anchor| Text { anchor, ..Text::at([to[0] + dx, to[1] + 12.0], &words) };
        labels.put_first(Rank::Dimension, vec![text(6.0, Anchor::Start), text(-6.0, Anchor::End)]);
    }
}

/// A force that acts at a point, its tip there.
fn outer(pen: &mut Pen, labels: &mut Labels, paper: &Paper, at: Vec3, force: Vec3, scale: f64) {
    if force.norm() < NONE {
        return;
    }
    let tip = paper.at(at);
    let along = scaled(sub(paper.at(at + force), tip), scale / paper.sheet.scale());
    if length(along) < 3.0 {
        return;
    }
    let tail = sub(tip, along);
    pen.line(&[tail, tip], Stroke::line(Ink::Ink, 2.4));
    pen.arrowhead(tip, along, Ink::Ink);
    let text = Text { bold: true, ..Text::at(tail, &format!("{} kN", fixed(force.norm() / 1000.0, 2))) };
    let place = |dx: f64, dy: f64, anchor| Text { at: [tail[0] + dx, tail[1] + dy], anchor, ..text.clone() };
    // Beside the whole of a short arrow, so that its line is not read as a minus.
    let clear = if length(along) < 24.0 { 14.0 } else { 6.0 };
    let places = [
        place(clear, 4.0, Anchor::Start),
        place(-clear, 4.0, Anchor::End),
        place(0.0, 16.0, Anchor::Middle),
        place(0.0, -6.0, Anchor::Middle),
        place(8.0, 18.0, Anchor::Start),
    ];
    if paper.view != View::Plan || force.z.abs() < 0.9 * force.norm() {
        labels.put_first(Rank::Axis, places.to_vec());
    }
}

/// A member's force beside its middle, tension positive.
fn member(pen: &mut Pen, labels: &mut Labels, paper: &Paper, ends: [Vec3; 2], force: f64, scale: f64) {
    let [a, b] = ends.map(|end| paper.at(end));
    if force.abs() < NONE || length(sub(b, a)) < SHORTEST {
        return;
    }
    let along = unit(sub(b, a));
    let side = scaled(across(along), if across(along)[1] > 0.0 { BESIDE } else { -BESIDE });
    let middle = add(mix(a, b, 0.55), side);
    let half = scaled(along, (force.abs() * scale).max(16.0) / 2.0);
    let (from, to) = (sub(middle, half), add(middle, half));
    let pulled = force > 0.0;
    let dash: &[f64] = if pulled { &[] } else { &[3.0, 2.0] };
    pen.line(&[from, to], Stroke { dash, ..Stroke::line(Ink::Ink, 1.2) });
    let outward = if pulled { 1.0 } else { -1.0 };
    let heads: [(P, P); 2] = if pulled {
        [(from, along), (to, along)]
    } else {
        [(sub(middle, scaled(along, 2.0)), along), (add(middle, scaled(along, 2.0)), along)]
    };
    pen.arrowhead(heads[0].0, scaled(heads[0].1, -outward), Ink::Ink);
    pen.arrowhead(heads[1].0, scaled(heads[1].1, outward), Ink::Ink);
    let text = Text { anchor: Anchor::Middle, ..Text::at(middle, &signed(force / 1000.0, 2)) };
    let place = |k: f64, d: f64| Text { at: add(add(middle, scaled(along, k)), [0.0, d]), ..text.clone() };
    labels.put_first(
        Rank::Dimension,
        [place(0.0, 17.0), place(0.0, -8.0), place(34.0, 17.0), place(-34.0, 17.0), place(0.0, 32.0)].to_vec(),
    );
}

/// Which load it is, and how long a kN is.
fn legend(labels: &mut Labels, paper: &Paper, name: &str, scale: f64) {
    let newton = [1000.0, 10_000.0].into_iter().find(|n| n * scale >= 10.0).unwrap_or(100_000.0);
    // In one view alone the page's buttons and the details stand at the top: there all is one line at the bottom.
    let name = Text { bold: true, ink: Ink::Ink2, ..Text::at([0.0, 0.0], name) };
    let (min, max) = (paper.window.min, paper.window.max);
    let (at, [x, y]) = match paper.sheet.windows().len() {
        1 => ([min[0] + 12.0, max[1] - 8.0], [min[0] + 24.0 + name.width(), max[1] - 12.0]),
        _ => ([min[0] + 36.0, min[1] + 62.0], [min[0] + 36.0, min[1] + 80.0]),
    };
    labels.put(Rank::Fixed, Text { at, ..name });
    let mut bar = Pen::default();
    bar.line(&[[x, y], [x + newton * scale, y]], Stroke::line(Ink::Ink, 2.4));
    let text = format!("{} kN; + tension, − compression", fixed(newton / 1000.0, 0));
    let text = Text { ink: Ink::Ink2, ..Text::at([x + newton * scale + 8.0, y + 4.0], &text) };
    labels.put_with(Rank::Fixed, vec![text], bar);
}
