//! What does not close.

use super::ink::Ink;
use super::scene::{Pen, Stroke};
use super::{Paper, Picture, members};
use kernel::{Member, PointId, Vec3};

/// What does not close.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fault {
    /// A joint put, by hand, where the linkage can't be assembled, and where that is (car axes, mm).
    pub joint: Option<(PointId, Vec3)>,
    /// The member that can't reach, where one can be named.
    pub member: Option<Member>,
}

/// The joint where it was put, and the rods that can't follow it, in the fault style.
pub fn draw(pen: &mut Pen, paper: &Paper, picture: &Picture) {
    let Some(fault) = picture.fault else { return };
    let style = Stroke { width: 2.0, dash: &[6.0, 4.0], ..Stroke::narrow(Ink::Fault) };
    for rod in members::rods(&picture.axle, picture.axle.now) {
        let put = fault.joint.and_then(|(joint, at)| rod.moved(joint, at));
        if let Some(ends) = put.or_else(|| (Some(rod.member) == fault.member).then_some([rod.inner, rod.outer])) {
            pen.line(&ends.map(|end| paper.at(end)), style);
        }
    }
    if let Some((_, at)) = fault.joint {
        pen.disc(paper.at(at), 8.0, None, Some(Stroke { width: 2.0, ..Stroke::narrow(Ink::Fault) }));
    }
}
