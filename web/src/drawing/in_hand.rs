//! What is in hand: ringed, lettered, and followed from view to view.

use super::labels::{Labels, Rank};
use super::scene::{Anchor, Fill, Pen, Stroke, Text};
use super::{Ink, Paper, Picture, Sheet, View, shifts};
use kernel::{PointId, Vec3};

/// The joint in hand, and where it is.
pub(super) fn in_hand(picture: &Picture) -> Option<(PointId, Vec3)> {
    let id = picture.selected?;
    Some((id, picture.place(id)?))
}

/// What is in hand, a joint or a mount of the subframe: its name, and where it is.
pub(super) fn held(picture: &Picture) -> Option<(String, Vec3)> {
    let joint = in_hand(picture).map(|(id, at)| (id.name().into(), at));
    joint.or_else(|| {
        let which = picture.mount?;
        let mount = picture.axle.layout.subframe.as_ref()?.mounts.get(which)?;
        Some((format!("mount {}", which + 1), mount.at))
    })
}

/// The joint in hand followed from view to view: side and front share its height, front and plan its distance from the centre
/// plane. In one view alone the lines run right across it, so that a finger on the joint does not hide where it is.
pub(super) fn projection_lines(picture: &Picture, sheet: &Sheet) -> Pen {
    let mut pen = Pen::default();
    let Some((_, point)) = held(picture) else { return pen };
    let line = Stroke::narrow(Ink::Selected);
    if sheet.windows().iter().any(|window| window.view == View::Pictorial) {
        return pen;
    }
    if let [window] = sheet.windows() {
        let [x, y] = sheet.project(window.view, point);
        pen.line(&[[x, window.min[1]], [x, window.max[1]]], line);
        pen.line(&[[window.min[0], y], [window.max[0], y]], line);
    } else {
        pen.line(&[View::Side, View::Front, View::Plan].map(|view| sheet.project(view, point)), line);
    }
    pen
}

/// The joint in hand: filled and ringed, with its coordinates; a story points at it and says the rest itself.
pub(super) fn selected(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture) {
    let Some((name, point)) = held(picture) else { return };
    let at = paper.at(point);
    pen.disc(at, 8.0, None, Some(Stroke { width: 1.4, ..Stroke::narrow(Ink::Selected) }));
    pen.disc(at, 4.2, Some(Fill::solid(Ink::Selected)), None);
    let told = picture.slide.is_some_and(|slide| !slide.said.is_empty());
    if !told && (paper.view == View::Front || paper.sheet.windows().len() == 1) {
        let text = {
            let [x, y, z] = [point.x, point.y, point.z].map(|mm| picture.units.length(mm));
            format!("x {x}  y {y}  z {z}")
        };
        let rows = [Some(name), Some(text), picture.selected.and_then(|id| shifts::told(picture, id))];
        for (row, text) in rows.into_iter().flatten().enumerate() {
            let y = at[1] - 24.0 + 15.0 * row as f64;
            let line = Text {
                bold: true,
                ink: Ink::Selected,
                halo: true,
                anchor: Anchor::End,
                ..Text::at([at[0] - 84.0, y], &text)
            };
            let x = line.width() + paper.window.min[0] + 8.0;
            labels.put(Rank::Selected, Text { at: [f64::max(line.at[0], x), y], ..line });
        }
    }
}
