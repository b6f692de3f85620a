//! What gives way: the subframe as an outline through its mounts and all that it carries, each mount as a spring to a hatched body (frame and hatching
//! after ISO 3952), and bushes as rings round their joints.

use super::labels::{Labels, Rank};
use super::scene::{Fill, Grab, Handle, P, Pen, Stroke, Text};
use super::shapes::{across, add, grown, hull, mix, scaled, unit};
use super::{Axle, Ink, Paper, Picture, View, members};
use kernel::frame::mirror;
use kernel::{Anchor, Vec3};

/// The outline stands this far outside, px.
const MARGIN: f64 = 6.0;

/// Outer radius of a bush, px.
const BUSH: f64 = 7.0;

/// Length of a mount's spring, px.
const SPRING: f64 = 15.0;

/// The subframe behind everything that it carries: of one wheel shown as far as the centre plane, of both wheels all of it. And the frame that holds
/// a rack on the body.
pub fn outline(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    let axle = &picture.axle;
    let Some(points) = corners(axle) else { return };
    body(pen, paper, picture, |at| at);
    if axle.layout.rack.is_some() && !axle.layout.subframe_carries(Anchor::Rack) && paper.view != View::Side {
        let [from, to] = members::housing(paper, axle);
        let at = add(mix(from, to, 0.5), [0.0, 5.5]);
        frame(pen, at, [0.0, 1.0], 16.0);
    }
    if paper.view == View::Plan {
        let [x, y] = mix(paper.at(points[0]), paper.at(points[points.len().min(2) - 1]), 0.5);
        labels.put(Rank::Member, Text { ink: Ink::Ink2, ..Text::at([x - 22.0, y], "subframe") });
    }
}

/// The subframe itself, each of its points where it is: as it hangs in the car, or moved by a load.
pub fn body(pen: &mut Pen, paper: &Paper, picture: &Picture, place: impl Fn(Vec3) -> Vec3) {
    let Some(points) = corners(&picture.axle) else { return };
    let other = |point: &Vec3| if picture.whole.is_some() { mirror(*point) } else { Vec3::new(point.x, 0.0, point.z) };
    let all = points.iter().copied().chain(points.iter().map(other)).map(|point| paper.at(place(point))).collect();
    let fill = Fill { ink: Ink::Carrier, opacity: 0.28 };
    pen.shape(&grown(&hull(all), MARGIN), Some(fill), Some(Stroke::line(Ink::Ink2, 1.2)));
}

/// What spans the subframe on the left: its mounts first, and all that it carries.
fn corners(axle: &Axle) -> Option<Vec<Vec3>> {
    let mut points: Vec<Vec3> = axle.layout.subframe.as_ref()?.mounts.iter().map(|mount| mount.at).collect();
    for anchor in Anchor::all(axle.layout).into_iter().filter(|anchor| axle.layout.subframe_carries(*anchor)) {
        match anchor.joint() {
            Some(joint) => points.extend(axle.place(joint, axle.now)),
            None => points.push(axle.layout.track_rod.inner.component_mul(&Vec3::new(1.0, RACK, 1.0))),
        }
    }
    Some(points)
}

/// The rack's housing reaches so far out, as a part of its joint's distance from the centre plane.
const RACK: f64 = 0.6;

/// The mounts, and the handles under them.
pub fn mounts(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, handles: &mut Vec<Handle>) {
    let Some(subframe) = &picture.axle.layout.subframe else { return };
    let middle = subframe.mounts.iter().map(|mount| mount.at.x).sum::<f64>() / subframe.mounts.len().max(1) as f64;
    for (which, mount) in subframe.mounts.iter().enumerate() {
        // To the body: up, and from above away from the subframe.
        let towards = match paper.view {
            View::Plan => [0.0, if mount.at.x < middle { -1.0 } else { 1.0 }],
            _ => [0.0, -1.0],
        };
        let at = paper.at(mount.at);
        symbol(pen, at, towards);
        labels.joint(at);
        handles.push(Handle { grab: Grab::Mount(which), view: paper.view, outline: vec![at] });
        if picture.whole.is_some() && paper.view != View::Side {
            symbol(pen, paper.at(mirror(mount.at)), towards);
        }
    }
}

/// A ring of rubber round each joint that has a bush.
pub fn bushes(pen: &mut Pen, paper: &Paper, axle: &Axle) {
    for (anchor, _) in axle.layout.stiffness.iter().filter(|(_, bush)| bush.radial.is_some()) {
        if let Some(at) = anchor.joint().and_then(|joint| axle.place(joint, axle.now)) {
            let rubber = Some(Fill { ink: Ink::Hatch, opacity: 0.55 });
            pen.disc(paper.at(at), BUSH, rubber, Some(Stroke::line(Ink::Ink, 1.0)));
        }
    }
}

/// A mount: a pin on the subframe, a spring from it, and the body that it stands on.
fn symbol(pen: &mut Pen, at: P, towards: P) {
    let along = unit(towards);
    let side = scaled(across(along), 4.0);
    let end = add(at, scaled(along, SPRING));
    let mut zigzag = vec![at];
    for (i, part) in [0.25, 0.4, 0.55, 0.7, 0.85].into_iter().enumerate() {
        let aside = if i % 2 == 0 { side } else { scaled(side, -1.0) };
        zigzag.push(add(mix(at, end, part), aside));
    }
    zigzag.push(end);
    pen.line(&zigzag, Stroke::line(Ink::Ink, 1.0));
    frame(pen, end, along, 8.0);
    pen.disc(at, 3.0, Some(Fill::solid(Ink::Paper)), Some(Stroke::wide()));
}

/// The body: a base line across `along`, so far to either side, hatched behind.
fn frame(pen: &mut Pen, at: P, along: P, half: f64) {
    let side = across(along);
    let place = |k: f64| add(at, scaled(side, k));
    pen.line(&[place(-half), place(half)], Stroke::wide());
    let mut k = 2.0 - half;
    while k < half {
        pen.line(&[place(k), add(place(k), add(scaled(along, 5.0), scaled(side, -3.0)))], Stroke::narrow(Ink::Ink));
        k += 4.0;
    }
}
