//! The axle as it gives way under the load shown, enlarged: drawn as an axle is, over the rigid one in narrow lines.

use super::labels::{Labels, Rank};
use super::scene::{Pen, Text};
use super::{Axle, Paper, Picture, View, members, subframe, tyre, wheel};
use crate::study::giving::Deflected;
use kernel::{Deflection, Member, Rotation, State, Vec3};

/// Factors of enlargement to choose from.
const FACTORS: [f64; 7] = [100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0];

/// The greatest movement is drawn at most so large, mm of the car.
const MOST: f64 = 60.0;

/// The deflected axle of a view: of both wheels where both are shown.
pub fn draw(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    let Some(deflected) = picture.deflected else { return };
    let shown = picture.built.shown().index();
    let factor = factor(picture, deflected);
    let moves = &deflected.moves[shown];
    subframe::body(pen, paper, picture, |at| at + moves.subframe.velocity(at) * factor);
    one(pen, paper, &picture.axle, moves, factor);
    if let (Some(right), View::Front | View::Plan | View::Pictorial) = (&picture.right, paper.view) {
        one(pen, &Paper { mirrored: true, ..*paper }, right, &deflected.moves[1], factor);
    }
    if paper.view == View::Front || paper.sheet.windows().len() == 1 {
        // Which load it is stands beside the scale of forces.
        let words = format!("gives way ×{factor}");
        let (min, max) = (paper.window.min, paper.window.max);
        // In one view alone at the bottom, above the half-track and beneath the road if there is room, else at the top.
        let places = match paper.sheet.windows().len() {
            1 => [[min[0] + 12.0, max[1] - 44.0], [min[0] + 12.0, max[1] - 26.0], [min[0] + 12.0, min[1] + 20.0]],
            _ => [98.0, 116.0, 134.0].map(|down| [min[0] + 36.0, min[1] + down]),
        };
        let text = |at| Text { bold: true, ..Text::at(at, &words) };
        labels.put_first(Rank::Axis, places.map(text).into());
    }
}

/// The wheels where the load has moved them: behind the rigid axle, which would not be seen through them.
pub fn wheels(pen: &mut Pen, paper: &Paper, picture: &Picture) {
    let Some(deflected) = picture.deflected else { return };
    let factor = factor(picture, deflected);
    let one = |pen: &mut Pen, paper: &Paper, axle: &Axle, moves: &Deflection| {
        let state = moved(axle.now, moves, factor);
        wheel::draw(pen, paper, axle, &state, &tyre::outline(paper, axle, &state));
    };
    if let (Some(right), View::Front | View::Plan | View::Pictorial) = (&picture.right, paper.view) {
        one(pen, &Paper { mirrored: true, ..*paper }, right, &deflected.moves[1]);
    }
    one(pen, paper, &picture.axle, &deflected.moves[picture.built.shown().index()]);
}

/// How much movements are enlarged: the same for both wheels and all views.
fn factor(picture: &Picture, deflected: &Deflected) -> f64 {
    let states = [Some(picture.axle.now), picture.right.map(|right| right.now)];
    let most = |(state, moves): (&State, &Deflection)| {
        let road = moves.carrier.velocity(state.attitude.contact);
        let ends = moves.ends.iter().map(|end| end.norm());
        ends.chain([moves.carrier.v.norm(), road.norm()]).fold(0.0, f64::max)
    };
    let shown = picture.built.shown().index();
    let wheels = [(states[0], &deflected.moves[shown]), (states[1], &deflected.moves[1])];
    let most = wheels.into_iter().filter_map(|(state, moves)| Some(most((state?, moves)))).fold(0.0, f64::max);
    FACTORS.into_iter().find(|factor| most * factor <= MOST).unwrap_or(1.0)
}

fn one(pen: &mut Pen, paper: &Paper, axle: &Axle, moves: &Deflection, factor: f64) {
    let state = moved(axle.now, moves, factor);
    let end = |member: Member| {
        let row = axle.linkage.rows().iter().position(|row| row.member == member);
        row.map_or(Vec3::zeros(), |row| moves.ends[row] * factor)
    };
    let mut rods = members::rods(axle, &state);
    for rod in &mut rods {
        rod.inner += end(rod.member);
    }
    let strut = members::strut(axle, &state).map(|[top, foot]| [top + end(Member::Strut), foot]);
    members::moved(pen, paper, axle, &state, rods, strut);
}

/// A state whose carrier has moved, so much enlarged.
fn moved(state: &State, moves: &Deflection, factor: f64) -> State {
    let turn = Rotation::new(moves.carrier.omega * factor);
    let mut moved = state.clone();
    let pose = &mut moved.position.pose;
    (pose.w, pose.r) = (pose.w + moves.carrier.v * factor, turn * pose.r);
    let attitude = &mut moved.attitude;
    (attitude.spin, attitude.heading) = (turn * attitude.spin, turn * attitude.heading);
    attitude.contact = turn * attitude.contact;
    moved
}
