//! The room of the wheel: boxes that it must not meet, the outline of everywhere the tyre goes, the smallest gap, and what meets.

mod depth;

pub use depth::depth;

use super::labels::{Labels, Rank};
use super::scene::{Anchor, Fill, Grab, Handle, P, Pen, Stroke, Text};
use super::{Ink, Paper, Picture, View, members, tyre};
use crate::study::space::{Drawn, Held, Now, shown};
use kernel::space::Piece;
use kernel::{Member, Obstacle, Vec3};

/// From this length a dimension's arrows stand inside it, px.
const INSIDE: f64 = 24.0;

/// Half the side of what a box is held by, px.
const HOLD: f64 = 3.5;

/// The boxes of the layout, thin, with their names; those of an axle laid over in its style where they are others.
fn boxes(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    let own = &picture.built.layout().boxes;
    for one in own {
        for corners in placed(one, picture) {
            outline(pen, paper, corners, Stroke::narrow(Ink::Ink2));
            let places = corners.map(|corner| paper.at(corner));
            let [x, y] = [0, 1].map(|i| places.iter().map(|place| place[i]).fold(f64::INFINITY, f64::min));
            let [right, low] = [0, 1].map(|i| places.iter().map(|place| place[i]).fold(f64::NEG_INFINITY, f64::max));
            let text = |anchor, at| Text { ink: Ink::Ink2, anchor, ..Text::at(at, &one.name) };
            let [left_end, right_end] = [x + 8.0, right - 8.0];
            let at = [(Anchor::Start, left_end), (Anchor::End, right_end)]
                .into_iter()
                .flat_map(|(anchor, x)| [y + 16.0, low - 7.0, y - 6.0, low + 14.0].map(|y| text(anchor, [x, y])));
            labels.put_first(Rank::Member, at.collect());
        }
    }
    for one in picture.compared.iter().flat_map(|compared| &compared.layout.boxes).filter(|one| !own.contains(one)) {
        for corners in placed(one, picture) {
            outline(pen, paper, corners, Stroke::compared());
        }
    }
}

/// Where a box is, and where its mirror image.
pub fn placed(one: &Obstacle, picture: &Picture) -> Vec<[Vec3; 2]> {
    let own = shown(one, picture.built.shown());
    let image = one.mirrored.unwrap_or_default().then(|| own.mirrored().corners());
    [Some(own.corners()), image].into_iter().flatten().collect()
}

fn outline(pen: &mut Pen, paper: &Paper, corners: [Vec3; 2], stroke: Stroke) {
    let [[x, y], [x2, y2]] = corners.map(|corner| paper.at(corner));
    pen.shape(&[[x, y], [x2, y], [x2, y2], [x, y2]], None, Some(stroke));
}

/// Boxes, whatever is shown; and what the pane adds while it is.
pub fn draw(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, handles: &mut Vec<Handle>) {
    boxes(pen, labels, paper, picture);
    let Some(Drawn { now, outlines, old }) = picture.space else { return };
    if let Some(outlines) = outlines {
        let view = match paper.view {
            View::Front => 0,
            View::Side => 1,
            View::Plan => 2,
            // Outlines are of the three views; in space they would lie over everything.
            View::Pictorial => return,
        };
        // Long-dash double-dot narrow: extreme positions of moving parts (ISO 128, type 05.1).
        let opacity = if old { 0.35 } else { 1.0 };
        // The margin is nothing that moves: it is drawn paler.
        for (lines, opacity) in [(&outlines.tyre[view], opacity), (&outlines.margin[view], 0.55 * opacity)] {
            let line = Stroke { ink: Ink::Ink, width: 0.75, opacity, ..Stroke::compared() };
            for outline in lines {
                pen.shape(&outline.iter().map(|p| paper.at(*p)).collect::<Vec<P>>(), None, Some(line));
            }
        }
    }
    for (member, line) in &now.bent {
        bent(pen, paper, *member, line);
    }
    meeting(pen, paper, picture, now);
    if let Some(ends) = now.nearest {
        gap(pen, labels, paper, picture, ends);
    }
    holds(pen, paper, picture, handles);
}

/// A bent arm as it runs, with a ring at each bend; the straight bar beneath is what guides the wheel.
pub fn bent(pen: &mut Pen, paper: &Paper, member: Member, line: &[Vec3]) {
    let ink = if matches!(member, Member::UpperFront | Member::UpperRear) { Ink::Upper } else { Ink::Lower };
    let places: Vec<P> = line.iter().map(|p| paper.at(*p)).collect();
    pen.line(&places, Stroke { round: true, ..Stroke::line(Ink::Ink, 2.0 * members::HALF + 1.4) });
    pen.line(&places, Stroke { round: true, ..Stroke::line(ink, 2.0 * members::HALF - 1.4) });
    for at in places.iter().take(places.len() - 1).skip(1) {
        pen.disc(*at, 3.0, Some(Fill::solid(Ink::Paper)), Some(Stroke::narrow(Ink::Ink)));
    }
}

/// What boxes are held by: squares at the middle and at two opposite corners.
fn holds(pen: &mut Pen, paper: &Paper, picture: &Picture, handles: &mut Vec<Handle>) {
    for (which, one) in picture.built.layout().boxes.iter().enumerate() {
        let one = shown(one, picture.built.shown());
        for held in Held::ALL {
            let at @ [x, y] = paper.at(held.place(&one));
            let square =
                [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]].map(|[i, k]| [x + i * HOLD, y + k * HOLD]);
            pen.shape(&square, Some(Fill::solid(Ink::Paper)), Some(Stroke::line(Ink::Selected, 1.2)));
            handles.push(Handle { grab: Grab::Box(which, held), view: paper.view, outline: vec![at] });
        }
    }
}

/// The pieces that meet, in the fault style: members by their lines, the wheel and boxes by their outlines.
fn meeting(pen: &mut Pen, paper: &Paper, picture: &Picture, now: &Now) {
    let style = Stroke { width: 2.0, dash: &[6.0, 4.0], ..Stroke::narrow(Ink::Fault) };
    for (piece, line) in &now.meeting {
        match piece {
            Piece::Wheel => {
                let tyre = tyre::outline(paper, &picture.axle, picture.axle.now);
                pen.shape(&tyre, None, Some(Stroke { width: 1.2, ..style }));
            }
            Piece::Box(which) => {
                let one = picture.built.layout().boxes.get(*which);
                for corners in one.map_or(Vec::new(), |one| placed(one, picture)) {
                    outline(pen, paper, corners, style);
                }
            }
            _ => pen.line(&line.iter().map(|p| paper.at(*p)).collect::<Vec<_>>(), style),
        }
    }
}

/// The smallest gap as a dimension: along its own direction, in every view where it is to be seen.
fn gap(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, ends: [Vec3; 2]) {
    let [a, b] = ends.map(|end| paper.at(end));
    let length = f64::hypot(b[0] - a[0], b[1] - a[1]);
    let mm = (ends[1] - ends[0]).norm();
    // A view that shows less than half of it would show something else.
    if length < 0.5 * mm * paper.sheet.scale() {
        return;
    }
    let along = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
    let from = |p: [f64; 2], by: f64| [p[0] + along[0] * by, p[1] + along[1] * by];
    let thin = Stroke::narrow(Ink::Ink);
    let inside = length >= INSIDE;
    let out = if inside { 0.0 } else { 16.0 };
    pen.line(&[from(a, -out), from(b, out)], thin);
    let sense = if inside { 1.0 } else { -1.0 };
    pen.arrowhead(a, along.map(|x| -x * sense), Ink::Ink);
    pen.arrowhead(b, along.map(|x| x * sense), Ink::Ink);
    let words = format!("gap {}", picture.units.length(mm));
    let text = |end: [f64; 2], way: f64| {
        let at = from(end, way * (out + 6.0));
        let anchor = if along[0] * way < 0.0 { Anchor::End } else { Anchor::Start };
        Text { bold: true, anchor, ..Text::at([at[0], at[1] + 4.0], &words) }
    };
    labels.put_first(Rank::Selected, vec![text(b, 1.0), text(a, -1.0)]);
}
