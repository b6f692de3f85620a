//! The depth of the wheel arch: how far inboard the tyre reaches at each place, as lines of one depth seen from outside, ahead to the left.

use crate::drawing::Ink;
use crate::drawing::labels::{Labels, Rank};
use crate::drawing::scene::{Anchor, P, Pen, Scene, Stroke, Text};
use crate::study::space::{Contour, Room};
use crate::text::number::plain;

/// Width and height, px, and the free margin.
const SIZE: P = [380.0, 330.0];
const MARGIN: f64 = 22.0;

/// Every so many mm of depth a line is wide and lettered.
const LETTERED: f64 = 40.0;

/// Places along a line where its depth may be lettered.
const PLACES: usize = 8;

/// The contour plot of what a grid of positions has brought.
pub fn depth(room: &Room) -> Scene {
    let mut pen = Pen::default();
    let mut labels = Labels::new([0.0; 2], SIZE);
    let all = || room.arch.iter().flatten();
    let range = |axis: usize| {
        let values = || all().map(move |p| p[axis]);
        [values().fold(f64::INFINITY, f64::min), values().fold(f64::NEG_INFINITY, f64::max)]
    };
    let [[x, to_x], [z, to_z]] = [range(0), range(1)];
    let scale = ((SIZE[0] - 2.0 * MARGIN) / (to_x - x)).min((SIZE[1] - 2.0 * MARGIN) / (to_z - z));
    let at = |[px, pz]: &[f64; 2]| [MARGIN + (to_x - px) * scale, MARGIN + (to_z - pz) * scale];
    for line in &room.arch {
        pen.shape(&line.iter().map(at).collect::<Vec<P>>(), None, Some(Stroke::wide()));
    }
    let mut last = None;
    for Contour { y, closed, points } in &room.depth {
        let line: Vec<P> = points.iter().map(at).collect();
        let main = y.rem_euclid(LETTERED) == 0.0;
        let stroke = Stroke::line(if main { Ink::Ink } else { Ink::Ink2 }, if main { 1.0 } else { 0.6 });
        if *closed {
            pen.shape(&line, None, Some(stroke));
        } else {
            pen.line(&line, stroke);
        }
        // One number a depth is enough.
        if main && last.replace(*y) != Some(*y) {
            let places = (0..PLACES).filter_map(|i| line.get(i * line.len() / PLACES));
            let text = |p: &P| Text { anchor: Anchor::Middle, size: 11.0, ..Text::at([p[0], p[1] + 4.0], &plain(*y)) };
            labels.put_first(Rank::Member, places.map(text).collect());
        }
    }
    labels.letter(&mut pen);
    pen.text(Text {
        halo: false,
        ink: Ink::Ink2,
        ..Text::at([MARGIN, SIZE[1] - 5.0], "least y of the tyre, mm; ahead is left")
    });
    Scene { items: pen.items, ..Scene::new(SIZE) }
}
