//! Dimensions in the manner of ISO 129: measured on the drawing, live.

use super::labels::{Labels, Rank};
use super::scene::{Anchor, P, Pen, Stroke, Text};
use super::{Ink, Paper, Picture, View};
use kernel::Vec3;

/// From this length the arrows stand inside and the text above, px; below, outside and at the line's end.
const INSIDE: f64 = 24.0;

/// Below this length a dimension on the drawing says nothing, px.
const LEAST: f64 = 6.0;

/// A level dimension between two places, at height `y`, with extension lines.
pub fn level(pen: &mut Pen, labels: &mut Labels, a: P, b: P, y: f64, text: &str) {
    let thin = Stroke::narrow(Ink::Ink2);
    for [x, from] in [a, b] {
        pen.line(&[[x, from + (y - from).signum() * 4.0], [x, y + (y - from).signum() * 4.0]], thin);
    }
    let (left, right) = (f64::min(a[0], b[0]), f64::max(a[0], b[0]));
    let label = Text::at([0.0, 0.0], text);
    if right - left >= INSIDE {
        pen.line(&[[left, y], [right, y]], thin);
        pen.arrowhead([left, y], [-1.0, 0.0], Ink::Ink);
        pen.arrowhead([right, y], [1.0, 0.0], Ink::Ink);
        let at = [f64::midpoint(left, right), y - 4.0];
        labels.put(Rank::Dimension, Text { at, anchor: Anchor::Middle, ..label });
    } else {
        pen.line(&[[left - 16.0, y], [right + 16.0, y]], thin);
        pen.arrowhead([left, y], [1.0, 0.0], Ink::Ink);
        pen.arrowhead([right, y], [-1.0, 0.0], Ink::Ink);
        let beside = Text { at: [right + 20.0, y + 4.0], ..label };
        let before = Text { at: [left - 20.0, y + 4.0], anchor: Anchor::End, ..beside.clone() };
        let below = Text { at: [f64::midpoint(left, right), y + 15.0], anchor: Anchor::Middle, ..beside.clone() };
        let place = [beside, before].into_iter().find(|text| labels.holds(text));
        labels.put(Rank::Dimension, place.unwrap_or(below));
    }
}

/// The centre plane, with two short bars at each end.
pub fn centre_plane(pen: &mut Pen, paper: &Paper) {
    if paper.view == View::Side {
        return;
    }
    let x = paper.at(Vec3::zeros())[0];
    let (top, bottom) = (paper.window.min[1] + 14.0, paper.window.max[1] - 14.0);
    pen.line(&[[x, top], [x, bottom]], Stroke::centre());
    pen.plane_end([x, top]);
    pen.plane_end([x, bottom]);
}

/// The dimensions of a view.
pub fn draw(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    let (axle, state) = (&picture.axle, picture.axle.now);
    let w = state.position.pose.w;
    let contact = paper.at(w + state.attitude.contact);
    let told = |column: &str, mm: f64| picture.told(column, picture.units.length(mm));
    match paper.view {
        View::Front => {
            height(pen, labels, paper, picture, contact[1]);
            let plane = [paper.at(Vec3::zeros())[0], contact[1]];
            level(
                pen,
                labels,
                plane,
                contact,
                contact[1] + 38.0,
                &format!("half track {}", told("track_change_mm", (w + state.attitude.contact).y)),
            );
        }
        View::Side => {
            let offset = state.axis.as_ref().ok().and_then(|axis| axis.at_road);
            if let Some(at_road) = offset.map(|p| paper.at(w + p)).filter(|p| (p[0] - contact[0]).abs() >= LEAST) {
                let along = (offset.unwrap_or_default() - state.attitude.contact).dot(&state.attitude.heading);
                let text = format!("caster offset at ground {}", told("caster_offset_ground_mm", along));
                level(pen, labels, at_road, contact, contact[1] + 24.0, &text);
            }
            forward(labels, [paper.window.min[0] + 78.0, contact[1] + 46.0], [-1.0, 0.0]);
        }
        View::Plan => {
            let reach = axle.layout.wheel.free_radius * 1.08;
            let [wheel, ahead] = [state.attitude.heading, Vec3::x()].map(|along| paper.at(w + along * reach));
            let toe = format!("toe {}", picture.told("toe_deg", picture.units.angle(-state.attitude.steer, 2)));
            pen.line(&[paper.at(w), ahead], Stroke::narrow(Ink::Ink2));
            level(pen, labels, [wheel[0], wheel[1] - 1.0], [ahead[0], ahead[1] - 1.0], ahead[1] - 12.0, &toe);
            forward(labels, [paper.at(Vec3::zeros())[0] + 24.0, paper.window.max[1] - 64.0], [0.0, 1.0]);
        }
        View::Pictorial => {}
    }
}

/// The height over the road of the ball joint in hand.
fn height(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, road: f64) {
    let joint = super::in_hand::in_hand(picture).filter(|(id, _)| id.on_carrier());
    let Some((_, point)) = joint else { return };
    let [x, y] = paper.at(point);
    let x0 = x - 56.0;
    let thin = Stroke::narrow(Ink::Ink2);
    pen.line(&[[x - 10.0, y], [x0 - 4.0, y]], thin);
    pen.line(&[[x0, y], [x0, road]], thin);
    pen.arrowhead([x0, y], [0.0, -1.0], Ink::Ink);
    pen.arrowhead([x0, road], [0.0, 1.0], Ink::Ink);
    let above = point.z - picture.axle.road(picture.axle.now);
    let text = Text { anchor: Anchor::End, ..Text::at([x0 - 6.0, 0.0], &picture.units.length(above)) };
    // Along the line wherever there is room: the middle first.
    let places = [0.5, 0.35, 0.65, 0.2, 0.8].map(|part| Text { at: [x0 - 6.0, y + (road - y) * part], ..text.clone() });
    labels.put_first(Rank::Dimension, places.to_vec());
}

/// The arrow that says which way is forward.
fn forward(labels: &mut Labels, at: P, along: P) {
    let tip = [at[0] + 44.0 * along[0], at[1] + 44.0 * along[1]];
    let mut arrow = Pen::default();
    arrow.line(&[at, tip], Stroke::line(Ink::Ink2, 1.0));
    arrow.arrowhead(tip, along, Ink::Ink2);
    let place = if along[0] == 0.0 { [at[0] + 10.0, at[1] + 26.0] } else { [at[0] + 8.0, at[1] + 4.0] };
    labels.put_with(Rank::Hint, vec![Text { ink: Ink::Ink2, ..Text::at(place, "forward") }], arrow);
}
