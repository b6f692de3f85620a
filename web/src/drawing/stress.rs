//! What a slide emphasises: thin paper is laid over the view, and on it what is meant is drawn again, heavier.

use super::labels::{Labels, Rank};
use super::scene::{Fill, P, Pen, Stroke, Text};
use super::shapes::{capsule, mix};
use super::{Ink, Paper, Picture, axis, in_hand, members, space};
use crate::document::story::Stress;
use kernel::Member;

/// How much the paper hides of all else, 0 to 1.
const THIN: f64 = 0.62;

/// How much thicker a member is than usual, px to each side.
const HEAVIER: f64 = 1.6;

/// Draws it over a view.
pub fn draw(pen: &mut Pen, paper: &Paper, picture: &Picture) {
    let stress = picture.slide.and_then(|slide| slide.stress);
    let Some(stress) = stress.filter(|stress| !matches!(stress, Stress::Reading(_))) else { return };
    let (min, max) = (paper.window.min, paper.window.max);
    let corners = [min, [max[0], min[1]], max, [min[0], max[1]]];
    pen.shape(&corners, Some(Fill { ink: Ink::Paper, opacity: THIN }), None);
    let mut labels = Labels::new(min, max);
    match stress {
        Stress::Joint => in_hand::selected(pen, &mut labels, paper, picture),
        Stress::Axis => steering_axis(pen, &mut labels, paper, picture),
        Stress::Member(member) => heavier(pen, &mut labels, paper, picture, member),
        Stress::Room => space::draw(pen, &mut labels, paper, picture, &mut Vec::new()),
        Stress::Reading(_) => {}
    }
    labels.letter(pen);
}

/// The axis with what it runs through.
fn steering_axis(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    if paper.view != super::View::Pictorial {
        return axis::draw(pen, labels, paper, picture);
    }
    let (axle, state) = (&picture.axle, picture.axle.now);
    for ends in axis::prolonged(axle, state) {
        pen.line(&ends.map(|end| paper.at(end)), Stroke::line(Ink::Ink, 1.4));
    }
    if let Some(ends) = axis::drawn(axle, state) {
        axis::line(pen, ends.map(|end| paper.at(end)));
    }
    axis::marks(pen, paper, axle);
    for (name, meet) in axis::closest_places(axle, state) {
        let text = format!("the {name} arms’ lines come closest here");
        labels.put_with_leader(Rank::Axis, Text { bold: true, ..Text::at([0.0; 2], &text) }, paper.at(meet));
    }
}

/// A member, thicker, with its name.
fn heavier(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, member: Member) {
    let (axle, state) = (&picture.axle, picture.axle.now);
    let rods = members::rods(axle, state).into_iter().filter(|rod| rod.member == member);
    let rods = rods.map(|rod| ([rod.inner, rod.outer], rod.ink));
    let strut = members::strut(axle, state).filter(|_| member == Member::Strut).map(|ends| (ends, Ink::Strut));
    for (ends, ink) in rods.chain(strut) {
        let [a, b]: [P; 2] = ends.map(|end| paper.at(end));
        pen.shape(&capsule(a, b, members::HALF + HEAVIER), Some(Fill::solid(ink)), Some(Stroke::line(Ink::Ink, 2.0)));
        pen.ball(a);
        pen.ball(b);
        let name = Text { bold: true, ..Text::at([0.0; 2], member.name(axle.layout)) };
        labels.put_with_leader(Rank::Axis, name, mix(a, b, 0.5));
    }
}
