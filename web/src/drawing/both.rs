//! Both wheels: the right one as a mirrored left one, the road they stand on, roll centre and centre of turning.

use super::labels::{Labels, Rank};
use super::scene::{Anchor, Fill, P, Pen, Stroke, Text};
use super::{Axle, Ink, Paper, Picture, View, axis, members, subframe, tyre, wheel};
use crate::text::number::fixed;
use kernel::frame::mirror;
use kernel::{Vec3, Whole};

/// The readings whose lines are drawn when they are pinned.
const FRONT_ARM: &str = "front_swing_arm_mm";
pub const SIDE_ARM: &str = "side_swing_arm_mm";

/// The right wheel and what guides it, as they are built: drawn as the left one is, through a mirror, without names and handles.
pub fn right_wheel(pen: &mut Pen, paper: &Paper, picture: &Picture, axle: Axle) {
    let paper = &Paper { mirrored: true, ..*paper };
    let picture =
        Picture { axle, selected: None, mount: None, fault: None, loads: None, right: None, whole: None, ..*picture };
    let tyre = tyre::outline(paper, &axle, axle.now);
    // Its lettering goes nowhere: there is no room between the corners.
    let mut nowhere = Labels::new([0.0, 0.0], [0.0, 0.0]);
    wheel::draw(pen, paper, &axle, axle.now, &tyre);
    members::ghost(pen, paper, &axle);
    members::draw(pen, &mut nowhere, paper, &picture, &tyre, false);
    axis::draw(pen, &mut nowhere, paper, &picture);
    subframe::bushes(pen, paper, &axle);
    members::joints(pen, &mut nowhere, paper, &picture, &mut Vec::new());
}

/// The road through both contact points, with ground hatching, and where it was at rest.
pub fn road(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, [now, rest]: &[Whole; 2]) {
    let reach = picture.axle.layout.wheel.width;
    for (whole, ink) in [(rest, Ink::Ghost), (now, Ink::Ink)] {
        let along = whole.axle.leftward();
        let [left, right] = [0, 1].map(|i| whole.axle.sides[i].contact);
        let ends = [right - along * reach, left + along * reach].map(|p| paper.at(Vec3::new(0.0, p.y, p.z)));
        let width = if ink == Ink::Ink { 1.8 } else { 0.8 };
        pen.line(&ends, Stroke::line(ink, width));
        if ink == Ink::Ink {
            let slope = (ends[1][1] - ends[0][1]) / (ends[1][0] - ends[0][0]);
            let mut x = ends[0][0];
            while x < ends[1][0] {
                let y = |x: f64| ends[0][1] + slope * (x - ends[0][0]);
                pen.line(&[[x + 7.0, y(x + 7.0)], [x, y(x) + 8.0]], Stroke::narrow(Ink::Hatch));
                x += 7.0;
            }
            // Tilted, the road would keep too much of the paper.
            if now.axle.roll == 0.0 {
                labels.keep_out([ends[0][0], ends[0][1] - 1.0, ends[1][0], ends[0][1] + 8.0]);
            }
        }
    }
    let text =
        format!("body rolled by {} to the right; the road is drawn tilted", picture.units.angle(now.axle.roll, 1));
    if now.axle.roll != 0.0 {
        let place = |down: f64| Text {
            ink: Ink::Ink2,
            ..Text::at([paper.window.min[0] + 28.0, paper.window.min[1] + down], &text)
        };
        // The scale of forces may stand in the first place.
        labels.put_first(Rank::Axis, vec![place(62.0), place(100.0)]);
    }
}

/// From ahead: the normals to both contact points' paths and the roll centre where they meet, and the track. From above: both wheel axes
/// and, in words, where the car turns.
pub fn centres(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, [now, _]: &[Whole; 2]) {
    let axle = &now.axle;
    if paper.view == View::Plan {
        return turning(pen, labels, paper, picture, now);
    }
    let told = |column: &str, mm: f64| picture.told(column, picture.units.length(mm));
    let thin = Stroke::narrow(Ink::Ink2);
    let flat = |p: Vec3| paper.at(Vec3::new(0.0, p.y, p.z));
    let path = picture.path.iter().filter_map(|(_, whole)| whole.axle.roll_centre());
    let path: Vec<_> = path.filter(|centre| centre.sideways.abs() < 2_000.0).map(|centre| flat(centre.at)).collect();
    pen.line(&path, Stroke::line(Ink::Selected, 1.4));
    if picture.pinned.contains(&FRONT_ARM) {
        swing_arms(pen, labels, paper, picture, now);
    }
    if let Some(centre) = axle.roll_centre().filter(|centre| centre.sideways.abs() < 2_000.0) {
        for side in &axle.sides {
            pen.line(&[flat(side.contact), flat(centre.at)], thin);
        }
        let at = flat(centre.at);
        pen.disc(at, 4.2, Some(Fill::solid(Ink::Paper)), Some(Stroke::wide()));
        pen.disc(at, 1.6, Some(Fill::solid(Ink::Ink)), None);
        let text = format!(
            "roll centre {} above the road, {} to the left",
            told("axle_roll_centre_height_mm", centre.height),
            told("axle_roll_centre_sideways_mm", centre.sideways)
        );
        let text = Text { bold: true, anchor: Anchor::Middle, ..Text::at(at, &text) };
        let place = |dy: f64| Text { at: [at[0], at[1] + dy], ..text.clone() };
        let corner = [paper.window.min[0] + 28.0, paper.window.max[1] - 12.0];
        let aside = Text { at: corner, anchor: Anchor::Start, ..text.clone() };
        labels.put_first(Rank::Axis, vec![place(-14.0), place(24.0), place(-32.0), aside]);
    } else {
        let text = Text {
            bold: true,
            anchor: Anchor::Middle,
            ..Text::at(flat(Vec3::z() * 60.0), "roll centre off the drawing")
        };
        labels.put(Rank::Axis, text);
    }
    let [left, right] = [0, 1].map(|i| flat(axle.sides[i].contact));
    let y = f64::max(left[1], right[1]) + 34.0;
    let text = format!("track {}", told("track_mm", axle.track()));
    super::dimensions::level(pen, labels, right, left, y, &text);
}

/// The line of a swing arm on demand.
fn arm_line() -> Stroke {
    Stroke { dash: &[11.0, 2.5, 1.5, 2.5, 1.5, 2.5], ..Stroke::line(Ink::Selected, 1.0) }
}

/// How far an instantaneous centre is, lettered beside its line.
fn arm_label(labels: &mut Labels, paper: &Paper, picture: &Picture, [from, to]: [P; 2], (column, arm): (&str, f64)) {
    let text = format!("instantaneous centre {} away", picture.told(column, picture.units.distance(arm)));
    let way = (to[0] - from[0]).signum();
    let place = |along: f64, dy: f64| Text {
        ink: Ink::Selected,
        anchor: Anchor::Middle,
        ..Text::at([from[0] + way * along, from[1] + dy], &text)
    };
    let corner = Text { anchor: Anchor::Start, ..place(0.0, 0.0) };
    let corner = Text { at: [paper.window.min[0] + 24.0, paper.window.max[1] - 60.0], ..corner };
    labels.put_first(Rank::Axis, vec![place(170.0, -26.0), place(170.0, -44.0), place(220.0, 52.0), corner]);
}

/// From each contact point towards the wheel's instantaneous centre, however far that is.
fn swing_arms(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, now: &Whole) {
    for (i, side) in now.axle.sides.iter().enumerate() {
        let Some(centre) = side.state.front_centre() else { continue };
        let at = if i == 1 { mirror(centre.at) } else { centre.at };
        let line = [side.contact, at].map(|p| paper.at(Vec3::new(0.0, p.y, p.z)));
        pen.line(&line, arm_line());
        if i == 0 {
            arm_label(labels, paper, picture, line, (FRONT_ARM, centre.arm));
        }
    }
}

/// The same in side view, of the left wheel.
pub fn side_arm(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    let state = picture.axle.now;
    let Some(centre) = state.side_centre() else { return };
    let line = [state.position.pose.w + state.attitude.contact, centre.at].map(|p| paper.at(p));
    pen.line(&line, arm_line());
    arm_label(labels, paper, picture, line, (SIDE_ARM, centre.arm));
}

/// Both wheels' axes across the plan, and the turning circle in words.
fn turning(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, now: &Whole) {
    let Some(turn) = now.turn() else { return };
    for side in &now.axle.sides {
        let out = Vec3::new(side.spin.x, side.spin.y, 0.0) * 3_000.0;
        pen.line(&[paper.at(side.centre - out), paper.at(side.centre + out)], Stroke::centre());
    }
    let at = [paper.window.min[0] + 28.0, paper.window.max[1] - 12.0];
    let text = match (turn.centre(), now.circle(true)) {
        (Some(y), Some(circle)) => format!(
            "{} turn, centre {} m from the centre plane; {} m kerb to kerb",
            if y > 0.0 { "left" } else { "right" },
            fixed(y.abs() / 1000.0, 2),
            picture.told("kerb_circle_m", fixed(circle / 1000.0, 2))
        ),
        _ => "straight ahead".into(),
    };
    labels.put(Rank::Axis, Text { ink: Ink::Ink2, ..Text::at(at, &text) });
}
