//! What is lettered in the pictorial view: outside, on leaders, and what the steering axis runs through first.

use crate::drawing::labels::{Labels, Rank};
use crate::drawing::scene::{Anchor, Fill, P, Pen, Stroke, Text};
use crate::drawing::shapes::{add, length, mix, scaled, sub, unit};
use crate::drawing::{Axle, Ink, Paper, Picture, axis, members, projection};
use kernel::{Guide, Member, PointId, Vec3};

/// The view's title, the projection's name after the standard, and from where it is seen.
pub fn title(labels: &mut Labels, paper: &Paper) {
    let ([x, y], turn) = (paper.window.title, paper.sheet.turn());
    let title = Text { bold: true, size: 13.0, ..Text::at([x, y], "Pictorial view") };
    let told = format!("{}, {}", turn.name(), turn.from());
    labels.put(Rank::Fixed, Text { ink: Ink::Ink2, ..Text::at([x + title.width() + 8.0, y], &told) });
    labels.put(Rank::Fixed, title);
}

/// Keeps names off the page's buttons in the lower right corner.
pub fn keep_out(labels: &mut Labels, paper: &Paper) {
    let [right, bottom] = paper.window.max;
    labels.keep_out([right - BUTTONS, bottom - projection::below(paper.sheet.size) + 4.0, right, bottom]);
}

/// Width of these buttons, px.
const BUTTONS: f64 = 300.0;

/// Length of an arrow of the triad where it is not foreshortened, px.
const ARROW: f64 = 34.0;

/// The directions of the car, in the lower left corner; where both wheels are shown the right one comes there, and they stand below the title.
pub fn triad(pen: &mut Pen, labels: &mut Labels, paper: &Paper, both: bool) {
    let [right, up, _] = paper.sheet.turn().axes();
    let (low, high) = (paper.window.max[1] - 30.0 - projection::below(paper.sheet.size), paper.window.title[1] + 76.0);
    let foot = [paper.window.min[0] + 58.0, if both { high } else { low }];
    for (way, name) in [(Vec3::x(), "forward"), (Vec3::y(), "left"), (Vec3::z(), "up")] {
        let along = scaled([right.dot(&way), -up.dot(&way)], ARROW);
        // Seen end-on it says nothing.
        if length(along) > 6.0 {
            let tip = add(foot, along);
            pen.line(&[foot, tip], Stroke::line(Ink::Ink2, 1.0));
            labels.line([foot, tip]);
            pen.arrowhead(tip, along, Ink::Ink2);
            let [x, y] = add(tip, scaled(unit(along), 6.0));
            let anchor = match along[0] {
                x if x > 8.0 => Anchor::Start,
                x if x < -8.0 => Anchor::End,
                _ => Anchor::Middle,
            };
            labels.put(Rank::Fixed, Text { ink: Ink::Ink2, size: 11.5, anchor, ..Text::at([x, y + 4.0], name) });
        }
    }
}

/// A name on a leader: beside what it names, outboard of the tyre's outline or before it, else inboard, as near to its height as there is room;
/// close to it in fewer words.
fn outside(paper: &Paper, outline: &[P], on: P, text: &Text, short: &str) -> Vec<Text> {
    let side = |x: f64, anchor: Anchor| {
        let at = move |dy: f64| Text { at: [x, on[1] + dy], anchor, ..text.clone() };
        [0.0, 22.0, -22.0, 44.0, -44.0, 70.0, -70.0, 100.0].map(at)
    };
    let (left, right) =
        outline.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, r), [x, _]| (l.min(*x), r.max(*x)));
    let [out, before] = [right + 10.0, on[0] + 44.0].map(|x| side(x, Anchor::Start));
    let [inn, behind] = [left - 10.0, on[0] - 44.0].map(|x| side(x, Anchor::End));
    let shorter = |text: Text| Text { text: short.into(), ..text };
    let close = |dx: f64, anchor| side(on[0] + dx, anchor).map(shorter);
    if members::inboard(paper)[0] <= 0.0 {
        [out, before, close(16.0, Anchor::Start), behind, inn].concat()
    } else {
        [inn, behind, close(-16.0, Anchor::End), before, out].concat()
    }
}

/// The axis and what makes it, then the members.
pub fn names(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, outline: &[P]) {
    let axle = &picture.axle;
    axis_name(labels, paper, axle);
    for (pair, meet) in axis::closest_places(axle, axle.now) {
        let on = paper.at(meet);
        let text = Text::at(on, &format!("{pair} arms’ lines come closest"));
        labels.put_on_leader(Rank::Axis, outside(paper, outline, on, &text, &format!("{pair} arms come closest")), on);
    }
    at_hub(pen, labels, paper, picture, outline);
    if let Some(at) = axle.now.axis.as_ref().ok().and_then(|axis| axis.at_road) {
        let on = paper.at(axle.now.position.pose.w + at);
        let text = Text { ink: Ink::Ink2, ..Text::at(on, "axis meets the road") };
        labels.put_on_leader(Rank::Dimension, outside(paper, outline, on, &text, &text.text), on);
    }
    member_names(labels, paper, axle);
}

/// Names keep off rods and axis.
pub fn lines(labels: &mut Labels, paper: &Paper, axle: &Axle) {
    for rod in members::rods(axle, axle.now) {
        labels.line([rod.inner, rod.outer].map(|p| paper.at(p)));
    }
    for line in [axis::drawn(axle, axle.now), Some(members::spring(axle, axle.now)), members::strut(axle, axle.now)] {
        labels.line(line.map_or([[0.0, 0.0]; 2], |line| line.map(|p| paper.at(p))));
    }
    if let [Some(inner), Some(outer)] = [PointId::ShaftInner, PointId::ShaftOuter].map(|id| axle.place(id, axle.now)) {
        labels.line([inner, outer].map(|p| paper.at(p)));
    }
    if axle.layout.rack.is_some() {
        labels.line(members::housing_ends(axle).map(|p| paper.at(p)));
    }
}

/// The axis' name at its upper end.
fn axis_name(labels: &mut Labels, paper: &Paper, axle: &Axle) {
    let Some([_, top]) = axis::drawn(axle, axle.now).map(|line| line.map(|p| paper.at(p))) else { return };
    let text = Text { bold: true, ..Text::at(top, axis::name(axle)) };
    let place = |dx: f64, dy: f64, anchor| Text { at: [top[0] + dx, top[1] + dy], anchor, ..text.clone() };
    let places = [
        place(12.0, 4.0, Anchor::Start),
        place(-12.0, 4.0, Anchor::End),
        place(0.0, -8.0, Anchor::Middle),
        place(12.0, 20.0, Anchor::Start),
    ];
    labels.put_first(Rank::Axis, places.to_vec());
}

/// The reading that the axis' distance from the wheel centre is lettered with.
const AT_HUB: &str = "kingpin_offset_wheel_centre_mm";

/// From the wheel centre to the axis, level: the two places joined, with the reading; a lesson that hides it hides the line too.
fn at_hub(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, outline: &[P]) {
    let state = picture.axle.now;
    let at = state.axis.as_ref().ok().and_then(|axis| axis.at_hub).filter(|_| !picture.hides(AT_HUB));
    let Some(at) = at else { return };
    let w = state.position.pose.w;
    let [centre, on] = [w, w + at].map(|p| paper.at(p));
    pen.line(&[centre, on], Stroke::line(Ink::Selected, 2.0));
    pen.disc(on, 2.8, Some(Fill::solid(Ink::Selected)), None);
    let offset = picture.units.length(-at.dot(&state.attitude.side));
    let text = Text { bold: true, ..Text::at(centre, &format!("kingpin offset at wheel centre {offset}")) };
    labels.put_on_leader(
        Rank::Axis,
        outside(paper, outline, centre, &text, &format!("offset at wheel centre {offset}")),
        centre,
    );
}

/// Members' names at their inner ends, away from the wheel, or along them.
fn member_names(labels: &mut Labels, paper: &Paper, axle: &Axle) {
    let inboard = unit(members::inboard(paper));
    let mut name = |inner: P, outer: P, name: &str| {
        let text = Text { ink: Ink::Ink2, ..Text::at(inner, name) };
        let anchor = if inboard[0] < 0.0 { Anchor::End } else { Anchor::Start };
        let aside = 18.0 * inboard[0].signum();
        let end = |dx: f64, dy: f64| Text { at: [inner[0] + aside + dx, inner[1] + dy], anchor, ..text.clone() };
        let along = |t: f64, dy: f64| {
            let [x, y] = mix(inner, outer, t);
            Text { at: [x, y + dy], anchor: Anchor::Middle, ..text.clone() }
        };
        labels.put_first(
            Rank::Member,
            vec![
                end(0.0, 4.0),
                end(0.0, 18.0),
                end(0.0, -12.0),
                along(0.3, -14.0),
                along(0.3, 24.0),
                along(0.1, -24.0),
                along(0.1, 30.0),
                along(0.5, 26.0),
            ],
        );
    };
    for rod in members::rods(axle, axle.now).iter().filter(|rod| !rod.name.is_empty()) {
        let [inner, outer] = [rod.inner, rod.outer].map(|p| paper.at(p));
        if rod.member == Member::TrackRod {
            name(mix(inner, outer, 0.35), outer, rod.name)
        } else {
            name(inner, outer, rod.name)
        }
    }
    let [top, foot] = members::spring(axle, axle.now).map(|p| paper.at(p));
    let strut = matches!(axle.layout.upper, Guide::Strut { .. });
    name(add(top, sub([0.0, 0.0], scaled(inboard, 6.0))), foot, if strut { "strut and spring" } else { "spring" });
    if axle.layout.rack.is_some() {
        let [a, b] = members::housing_ends(axle).map(|p| paper.at(p));
        name(a, b, "rack");
    }
}
