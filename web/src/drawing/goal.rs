//! What a search may move, as thin boxes, and what an answer would make of the axle, thin over the present one.

use super::members::{carrier, rods, strut};
use super::projection::Window;
use super::scene::{Grab, Handle, Pen};
use super::shapes::hull;
use super::{Area, Axle, Fill, Ink, Item, P, Paper, Sheet, Stroke, axis, tyre};
use crate::document::goal::{Ends, Goal};
use crate::study::Solved;
use kernel::{PointId, Vec3};

/// A box that has no width in a view is drawn so wide each way, px.
const LEAST: f64 = 3.0;

/// What is drawn in each view, clipped to it.
fn views(sheet: &Sheet, draw: impl Fn(&mut Pen, &Paper)) -> Vec<Item> {
    let view = |window: &Window| {
        let paper = Paper { sheet, view: window.view, window, mirrored: false };
        let mut pen = Pen::default();
        draw(&mut pen, &paper);
        Item::Clip { area: Area::Rect { min: window.min, max: window.max }, items: pen.items }
    };
    sheet.windows().iter().map(view).collect()
}

/// The boxes in which joints may move. They are places at rest; a joint that is elsewhere now has its box with it.
pub fn boxes(goal: &Goal, axle: &Axle, sheet: &Sheet) -> Vec<Item> {
    let mut points: Vec<PointId> = Vec::new();
    for freed in &goal.free {
        if !points.contains(&freed.point) {
            points.push(freed.point);
        }
    }
    let corners = |id: PointId| {
        let (at, now) = (axle.layout.point(id)?, axle.place(id, axle.now)?);
        let end = |end: usize| {
            let mut corner = at;
            for freed in goal.free.iter().filter(|freed| freed.point == id && freed.axis < 3) {
                corner[freed.axis] = freed.range[end];
            }
            corner + (now - at)
        };
        Some([end(0), end(1)])
    };
    let all: Vec<[Vec3; 2]> = points.into_iter().filter_map(corners).collect();
    let (fill, stroke) = (Fill { ink: Ink::Selected, opacity: 0.06 }, Stroke::narrow(Ink::Selected));
    views(sheet, |pen, paper| {
        for corners in &all {
            pen.shape(&rectangle(corners.map(|corner| paper.at(corner))), Some(fill), Some(stroke));
        }
    })
}

/// Half the side of what a box is held by, px.
const HOLD: f64 = 3.5;

/// What the box of a joint is held by in each view, its corners and the middles of its edges: squares, filled where keys hold them.
pub fn holds(goal: &Goal, axle: &Axle, sheet: &Sheet, point: PointId, held: Option<Ends>) -> (Vec<Item>, Vec<Handle>) {
    let Some((at, now)) = axle.layout.point(point).zip(axle.place(point, axle.now)) else { return Default::default() };
    let mut handles = Vec::new();
    let mut pen = Pen::default();
    for (view, axes) in sheet.windows().iter().filter_map(|window| Some((window.view, window.view.axes()?))) {
        for ends in goal.ends_in(point, axes) {
            let place @ [x, y] = sheet.project(view, goal.end_of_box(point, at, ends) + (now - at));
            let square =
                [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]].map(|[i, k]| [x + i * HOLD, y + k * HOLD]);
            let ink = if held == Some(ends) { Ink::Selected } else { Ink::Paper };
            pen.shape(&square, Some(Fill::solid(ink)), Some(Stroke::line(Ink::Selected, 1.2)));
            handles.push(Handle { grab: Grab::Bound(point, ends), view, outline: vec![place] });
        }
    }
    (pen.items, handles)
}

/// The rectangle between two opposite corners, nowhere narrower than can be seen.
fn rectangle([a, b]: [P; 2]) -> [P; 4] {
    let ends = |i: usize| {
        let (middle, half) = ((a[i] + b[i]) / 2.0, ((a[i] - b[i]) / 2.0).abs().max(LEAST));
        [middle - half, middle + half]
    };
    let ([left, right], [top, bottom]) = (ends(0), ends(1));
    [[left, top], [right, top], [right, bottom], [left, bottom]]
}

/// An axle that is offered in place of the present one: rods, strut, carrier, wheel and steering axis in thin lines.
pub fn offered(solved: &Solved, sheet: &Sheet) -> Vec<Item> {
    let axle = &Axle::of(solved);
    let line = Stroke::line(Ink::Selected, 1.1);
    views(sheet, |pen, paper| {
        pen.shape(&tyre::outline(paper, axle, axle.now), None, Some(Stroke { width: 0.7, ..line }));
        for rod in rods(axle, axle.now) {
            let ends = [rod.inner, rod.outer].map(|end| paper.at(end));
            pen.line(&ends, line);
            ends.iter().for_each(|end| pen.disc(*end, 2.5, None, Some(line)));
        }
        if let Some(strut) = strut(axle, axle.now) {
            pen.line(&strut.map(|end| paper.at(end)), line);
        }
        let points = carrier(axle, axle.now).into_iter().map(|point| paper.at(point)).collect();
        pen.shape(&hull(points), None, Some(Stroke { width: 0.7, ..line }));
        axis::laid_over(pen, paper, axle, line);
    })
}
