//! What a joint has different from its design: how far it sits from its place on its part there.

use super::scene::{Pen, Stroke};
use super::shapes::sub;
use super::{Ink, Paper, Picture};
use crate::document::Hands;
use kernel::{Change, PointId, Vec3};

/// An arrow shorter than this is none, px.
const SHORTEST: f64 = 3.0;

/// Less than this, mm, is told as nothing.
const LEAST: f64 = 0.05;

/// How far a joint sits from its place in the design, in the axes of its part at rest, mm.
fn shift(picture: &Picture, id: PointId) -> Vec3 {
    let changes = picture.built.layout().changes.of(picture.built.shown());
    Vec3::from_fn(|axis, _| changes.get(&Change::Joint(id, axis)).copied().unwrap_or_default())
}

/// Where hands keep lengths: a thin arrow from where the design has a joint on its part to where it sits.
pub fn draw(pen: &mut Pen, paper: &Paper, picture: &Picture) {
    if picture.hands != Hands::Build || picture.built.layout().changes.is_empty() {
        return;
    }
    for (id, _) in picture.axle.layout.points() {
        let (shift, Some(place)) = (shift(picture, id), picture.place(id)) else { continue };
        let shift = if id.on_carrier() { picture.axle.now.position.pose.r * shift } else { shift };
        let [from, to] = [place - shift, place].map(|point| paper.at(point));
        let along = sub(to, from);
        if f64::hypot(along[0], along[1]) > SHORTEST {
            pen.line(&[from, to], Stroke::line(Ink::Selected, 1.0));
            pen.arrowhead(to, along, Ink::Selected);
        }
    }
}

/// The same in words; `None` for a joint that sits where the design has it.
pub fn told(picture: &Picture, id: PointId) -> Option<String> {
    let shift = shift(picture, id);
    let part = |(axis, name): (usize, &str)| {
        (shift[axis].abs() >= LEAST).then(|| format!("{name} {}", picture.units.signed_length(shift[axis])))
    };
    let parts: Vec<String> = ["x", "y", "z"].into_iter().enumerate().filter_map(part).collect();
    (!parts.is_empty()).then(|| format!("changed by {}", parts.join(", ")))
}
