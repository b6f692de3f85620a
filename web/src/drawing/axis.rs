//! The steering axis, and where each split pair's arms come closest.

use super::labels::{Labels, Rank};
use super::scene::{Anchor, Fill, P, Pen, Stroke, Text};
use super::{Axle, Ink, Paper, Picture, View};
use kernel::{Guide, PointId, State, SteeringAxis, Vec3};

/// The axis runs from this far under the road, mm, …
const BELOW: f64 = 14.0;

/// … to this far above the wheel or the uppermost joint of the carrier, mm.
const ABOVE: f64 = 45.0;

/// The drawn part of the axis: lower and upper end.
fn ends(axle: &Axle, state: &State, axis: &SteeringAxis) -> Option<[Vec3; 2]> {
    let w = state.position.pose.w;
    // The strut's top mount is not on the carrier, but the axis runs through it.
    let joints = axle.layout.points().filter(|(id, _)| id.on_carrier() || *id == PointId::StrutTop);
    let joints = joints.filter_map(|(id, _)| axle.place(id, state));
    let wheel = w.z + axle.layout.wheel.free_radius;
    let top = joints.map(|p| p.z).fold(wheel, f64::max) + ABOVE;
    let at = |z: f64| axis.screw.at_height(z - w.z).map(|p| p + w);
    Some([at(axle.road(state) - BELOW)?, at(top)?])
}

/// Band, axis, the × at the road, the contact point, the crossings, and the label.
pub fn draw(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    let (axle, state) = (&picture.axle, picture.axle.now);
    crossings(pen, paper, axle, state);
    let w = state.position.pose.w;
    pen.disc(paper.at(w + state.attitude.contact), 2.4, Some(Fill::solid(Ink::Ink)), None);
    let Ok(axis) = &state.axis else { return };
    let Some(line) = ends(axle, state, axis).map(|ends| ends.map(|p| paper.at(p))) else { return };
    self::line(pen, line);
    if let Some(at_road) = axis.at_road.map(|p| paper.at(w + p)) {
        pen.cross(at_road);
        lean(pen, paper, line, at_road);
    }
    label(labels, paper, picture, axis, line);
}

/// The axis on its band.
pub fn line(pen: &mut Pen, line: [P; 2]) {
    pen.line(&line, Stroke { opacity: 0.75, ..Stroke::line(Ink::AxisBand, 6.0) });
    pen.line(&line, Stroke { dash: &[22.0, 3.5, 2.5, 3.5], ..Stroke::line(Ink::Ink, 1.7) });
}

/// The drawn part of the axis, where there is one.
pub fn drawn(axle: &Axle, state: &State) -> Option<[Vec3; 2]> {
    ends(axle, state, state.axis.as_ref().ok()?)
}

/// In space: where arms come closest, the contact point, and the × at the road.
pub fn marks(pen: &mut Pen, paper: &Paper, axle: &Axle) {
    let (state, w) = (axle.now, axle.now.position.pose.w);
    for (_, meet) in closest_places(axle, state) {
        pen.crossing(paper.at(meet));
    }
    pen.disc(paper.at(w + state.attitude.contact), 2.4, Some(Fill::solid(Ink::Ink)), None);
    if let Some(at_road) = state.axis.as_ref().ok().and_then(|axis| axis.at_road) {
        pen.cross(paper.at(w + at_road));
    }
}

/// The angle between axis and upright, dimensioned near the top.
fn lean(pen: &mut Pen, paper: &Paper, [low, high]: [P; 2], foot: P) {
    if paper.view == View::Plan {
        return;
    }
    let y = high[1] + 18.0;
    let on_axis = low[0] + (high[0] - low[0]) * (y - low[1]) / (high[1] - low[1]);
    let thin = Stroke::narrow(Ink::Ink2);
    pen.line(&[foot, [foot[0], high[1]]], thin);
    let (left, right) = (f64::min(on_axis, foot[0]), f64::max(on_axis, foot[0]));
    pen.line(&[[left - 16.0, y], [right + 16.0, y]], thin);
    pen.arrowhead([left, y], [1.0, 0.0], Ink::Ink);
    pen.arrowhead([right, y], [-1.0, 0.0], Ink::Ink);
}

/// What the axis is called: virtual where a guide is split.
pub fn name(axle: &Axle) -> &'static str {
    let split = |guide: &Guide| matches!(guide, Guide::Arms { .. });
    if split(&axle.layout.lower) || split(&axle.layout.upper) {
        "virtual steering axis"
    } else {
        "axis through the joints"
    }
}

/// The axis' name, on the right of its upper end, and its angle: in front view under the name, in side view on the left,
/// where nothing else stands.
fn label(labels: &mut Labels, paper: &Paper, picture: &Picture, axis: &SteeringAxis, [low, top]: [P; 2]) {
    let told = |column: &str, angle: f64| picture.told(column, picture.units.angle(angle, 1));
    let name = name(&picture.axle);
    let right = f64::max(low[0], top[0]) + 46.0;
    let left = f64::min(low[0], top[0]) - 24.0;
    let angle = match paper.view {
        View::Front => Text::at(
            [right, top[1] + 22.0],
            &format!("kingpin inclination {}", told("kingpin_inclination_deg", axis.inclination)),
        ),
        View::Side => Text {
            anchor: Anchor::End,
            ..Text::at([left, top[1] + 22.0], &format!("caster {}", told("caster_deg", axis.caster)))
        },
        View::Plan | View::Pictorial => return,
    };
    let name = Text { bold: true, ..Text::at([right, top[1] + 2.0], name) };
    let (mut leader, elbow) = (Pen::default(), [right - 14.0, top[1] - 2.0]);
    leader.line(&[[top[0] + 4.0, top[1] + 6.0], elbow, [right - 4.0, elbow[1]]], Stroke::narrow(Ink::Ink2));
    let above = Text { at: [top[0] + 8.0, top[1] - 6.0], anchor: Anchor::Middle, ..name.clone() };
    let over = Text { at: [above.at[0], above.at[1] - 15.0], anchor: Anchor::Middle, ..angle.clone() };
    labels.put_with(Rank::Axis, vec![name, above], leader);
    let higher = Text { at: [angle.at[0], angle.at[1] - 20.0], ..angle.clone() };
    let aside = Text { at: [angle.at[0] - 34.0, angle.at[1]], ..angle.clone() };
    labels.put_first(Rank::Axis, vec![angle, over, higher, aside]);
}

/// Where two lines come closest: the middle of their common perpendicular; `None` for parallel ones.
pub fn closest([a, b]: [Vec3; 2], [c, d]: [Vec3; 2]) -> Option<Vec3> {
    let (u, v, w) = (b - a, d - c, a - c);
    let (uu, uv, vv, uw, vw) = (u.dot(&u), u.dot(&v), v.dot(&v), u.dot(&w), v.dot(&w));
    let area = uu * vv - uv * uv;
    // Lines within a tenth of a degree of each other meet nowhere on the sheet.
    (area > 3e-6 * uu * vv).then(|| {
        let (s, t) = ((uv * vw - vv * uw) / area, (uu * vw - uv * uw) / area);
        (a + u * s + c + v * t) / 2.0
    })
}

/// A split pair of arms: whose it is, each arm's outer joint, and where the two come closest.
fn pairs(axle: &Axle, state: &State) -> impl Iterator<Item = (&'static str, [Vec3; 2], Vec3)> {
    use PointId::*;
    let pairs = [
        ("lower", [LowerFrontInner, LowerFrontOuter, LowerRearInner, LowerRearOuter]),
        ("upper", [UpperFrontInner, UpperFrontOuter, UpperRearInner, UpperRearOuter]),
    ];
    pairs.into_iter().filter_map(|(name, ids)| {
        let [Some(a), Some(b), Some(c), Some(d)] = ids.map(|id| axle.place(id, state)) else { return None };
        Some((name, [b, d], closest([a, b], [c, d])?))
    })
}

/// Where each split pair's arms come closest, by the pair's name.
pub fn closest_places(axle: &Axle, state: &State) -> Vec<(&'static str, Vec3)> {
    pairs(axle, state).map(|(name, _, meet)| (name, meet)).collect()
}

/// Each arm of a split pair from its outer joint to where the pair comes closest.
pub fn prolonged(axle: &Axle, state: &State) -> Vec<[Vec3; 2]> {
    pairs(axle, state).flat_map(|(_, outer, meet)| outer.map(|outer| [outer, meet])).collect()
}

/// Each split pair's arms prolonged to where they come closest.
fn crossings(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State) {
    for (_, outer, meet) in pairs(axle, state) {
        for outer in outer {
            pen.line(&[paper.at(outer), paper.at(meet)], Stroke::line(Ink::Ink2, 0.8));
        }
        pen.crossing(paper.at(meet));
    }
}

/// The axis at rest, as a ghost.
pub fn ghost(pen: &mut Pen, paper: &Paper, axle: &Axle) {
    let line = axle.rest.axis.as_ref().ok().and_then(|axis| ends(axle, axle.rest, axis));
    if let Some(line) = line {
        pen.line(&line.map(|p| paper.at(p)), Stroke { ink: Ink::Ghost, ..Stroke::centre() });
    }
}

/// The axis of the axle laid over.
pub fn compared(pen: &mut Pen, paper: &Paper, axle: &Axle) {
    laid_over(pen, paper, axle, Stroke::line(Ink::Compared, 1.4));
}

/// The axis of an axle that is laid over.
pub fn laid_over(pen: &mut Pen, paper: &Paper, axle: &Axle, line: Stroke) {
    let ends = axle.now.axis.as_ref().ok().and_then(|axis| ends(axle, axle.now, axis));
    if let Some(ends) = ends {
        pen.line(&ends.map(|p| paper.at(p)), Stroke { dash: &[20.0, 3.0, 2.0, 3.0], ..line });
    }
}
