//! The outline of the union of tyres, seen from ahead, from the side and from above.
//!
//! Seen along an axis a tyre is a convex figure, which is all that lies behind each of its tangents:
//! ```text
//! u cos α + v sin α ≤ support in the direction α
//! ```
//! A line across the view cuts it in one interval, whose ends are the nearest tangents on either side. The union's intervals on the lines of a grid,
//! both ways, say which nodes are inside and where the outline crosses the edges between them: every point of it is on it, and the chords between are
//! short. A margin round a body adds to its support.

use super::contour::{Border, Edge, borders};
use super::tyre::Tyre;
use crate::frame::Vec3;
use std::f64::consts::TAU;

/// From where the wheel is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// From ahead: y and z.
    Front,
    /// From the side: x and z.
    Side,
    /// From above: x and y.
    Plan,
}

/// Tangents of a tyre's figure. Between two of them its outline, of R mm, is R/cos(π/N) − R away at most: 0.1 mm.
const TANGENTS: usize = 120;

/// From line to line of the grid, mm; a chord of a shoulder of 40 mm is then 0.1 mm from its arc.
const STEP: f64 = 6.0;

impl Seen {
    /// The axes of the view.
    fn axes(self) -> [usize; 2] {
        match self {
            Seen::Front => [1, 2],
            Seen::Side => [0, 2],
            Seen::Plan => [0, 1],
        }
    }
}

/// The closed outlines of the union of tyres, each with a margin round it, mm; the coordinate that is not seen is 0. What is inside lies to the left
/// of an outline in the axes of the view, so that of a hole runs the other way.
pub fn outlines(tyres: &[Tyre], seen: Seen, margin: f64) -> Vec<Vec<Vec3>> {
    let tangents: Vec<[f64; 2]> = (0..TANGENTS)
        .map(|i| {
            let (sin, cos) = (i as f64 * TAU / TANGENTS as f64).sin_cos();
            [cos, sin]
        })
        .collect();
    let axes = seen.axes();
    let figures: Vec<Vec<f64>> = tyres.iter().map(|tyre| supports(tyre, axes, &tangents, margin)).collect();
    let Some(field) = Field::over(&figures) else { return Vec::new() };
    let across = |axis: usize| -> Vec<Vec<[f64; 2]>> {
        let line =
            |i: usize| union(figures.iter().filter_map(|figure| cut(figure, &tangents, axis, field.at(1 - axis, i))));
        (0..field.count[1 - axis]).map(line).collect()
    };
    // Of each line along the view's first axis, and along its second.
    let lines = [across(0), across(1)];
    let inside = |[i, j]: [usize; 2]| {
        let at = field.at(0, i);
        Some(lines[0][j].iter().any(|[from, to]| (*from..=*to).contains(&at)))
    };
    let crossing = |edge: Edge| {
        let from = field.at(edge.axis, edge.node[edge.axis]);
        let line = &lines[edge.axis][edge.node[1 - edge.axis]];
        let [least, most] = [from, from + STEP];
        let off = |end: &&f64| (**end - end.clamp(least, most)).abs();
        let end = line.iter().flatten().min_by(|a, b| off(a).total_cmp(&off(b)));
        let mut point = Vec3::zeros();
        // Along a tangent the two ways of cutting differ by a rounding: the node that is inside is then on the outline.
        let touched = if inside(edge.node) == Some(true) { least } else { most };
        point[axes[edge.axis]] = end.map_or(touched, |end| end.clamp(least, most));
        point[axes[1 - edge.axis]] = field.at(1 - edge.axis, edge.node[1 - edge.axis]);
        point
    };
    borders(field.count, inside, crossing).into_iter().map(|Border { points, .. }| points).collect()
}

fn supports(tyre: &Tyre, axes: [usize; 2], tangents: &[[f64; 2]], margin: f64) -> Vec<f64> {
    let direction = |[u, v]: &[f64; 2]| Vec3::ith(axes[0], *u) + Vec3::ith(axes[1], *v);
    tangents.iter().map(|tangent| tyre.support(direction(tangent)) + margin).collect()
}

/// The grid of a view.
struct Field {
    start: [f64; 2],
    count: [usize; 2],
}

impl Field {
    fn at(&self, axis: usize, i: usize) -> f64 {
        self.start[axis] + i as f64 * STEP
    }

    /// A grid round all figures; `None` without any.
    fn over(figures: &[Vec<f64>]) -> Option<Field> {
        let most = |tangent: usize| figures.iter().map(|figure| figure[tangent]).max_by(f64::total_cmp);
        let quarter = TANGENTS / 4;
        let range = [[-most(2 * quarter)?, most(0)?], [-most(3 * quarter)?, most(quarter)?]];
        let start = range.map(|[from, _]| ((from / STEP).floor() - 1.0) * STEP);
        let count = [0, 1].map(|i| ((range[i][1] - start[i]) / STEP).ceil() as usize + 2);
        Some(Field { start, count })
    }
}

/// The interval of a figure on the line along an axis of the view at a coordinate of the other.
fn cut(figure: &[f64], tangents: &[[f64; 2]], axis: usize, at: f64) -> Option<[f64; 2]> {
    let (mut from, mut to) = (f64::NEG_INFINITY, f64::INFINITY);
    for (support, tangent) in figure.iter().zip(tangents) {
        let (along, left) = (tangent[axis], support - tangent[1 - axis] * at);
        if along > f64::EPSILON {
            to = to.min(left / along);
        } else if along < -f64::EPSILON {
            from = from.max(left / along);
        } else if left < 0.0 {
            return None;
        }
    }
    (from < to).then_some([from, to])
}

/// The union of intervals, in order.
fn union(intervals: impl Iterator<Item = [f64; 2]>) -> Vec<[f64; 2]> {
    let mut all: Vec<[f64; 2]> = intervals.collect();
    all.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut united: Vec<[f64; 2]> = Vec::new();
    for [from, to] in all {
        match united.last_mut() {
            Some(last) if from <= last[1] => last[1] = last[1].max(to),
            _ => united.push([from, to]),
        }
    }
    united
}
