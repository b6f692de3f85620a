//! The strut's rod drawn as a beam lying down, with its forces and its moment diagram.

use super::Ink;
use super::scene::{Anchor, Fill, P, Pen, Scene, Stroke, Text};
use crate::text::number::fixed;
use kernel::RodForces;

/// Width and height, px.
const SIZE: P = [380.0, 150.0];

/// Where the rod lies, and where its moment is drawn from, px.
const ROD: f64 = 52.0;
const BASE: f64 = 104.0;

/// Left and right end of the rod, px.
const ENDS: [f64; 2] = [36.0, 330.0];

/// Height of the greatest moment, px.
const MOST: f64 = 32.0;

/// The rod from the top mount (left) over the guide to the piston (right).
pub fn beam(rod: &RodForces) -> Scene {
    let mut pen = Pen::default();
    let [a, b] = rod.spans;
    let guide = ENDS[0] + (ENDS[1] - ENDS[0]) * a / (a + b);
    let [top, piston] = ENDS;
    pen.shape(
        &[[guide, ROD - 11.0], [piston + 14.0, ROD - 11.0], [piston + 14.0, ROD + 11.0], [guide, ROD + 11.0]],
        Some(Fill::solid(Ink::Strut)),
        Some(Stroke::wide()),
    );
    pen.shape(
        &[[top, ROD - 3.0], [piston, ROD - 3.0], [piston, ROD + 3.0], [top, ROD + 3.0]],
        Some(Fill::solid(Ink::Paper)),
        Some(Stroke::wide()),
    );
    for x in [guide, piston] {
        pen.shape(
            &[[x - 4.0, ROD - 9.0], [x + 4.0, ROD - 9.0], [x + 4.0, ROD + 9.0], [x - 4.0, ROD + 9.0]],
            Some(Fill::solid(Ink::Ink)),
            None,
        );
    }
    pen.ball([top, ROD]);
    // The mount pushes one way, the guide the other, the piston again the first.
    force(&mut pen, [top, ROD - 6.0], 1.0, &format!("{} N", fixed(rod.side, 0)), Anchor::Start);
    force(&mut pen, [guide, ROD + 12.0], -1.0, &format!("guide {} N", fixed(rod.guide, 0)), Anchor::Middle);
    force(&mut pen, [piston, ROD - 12.0], 1.0, &format!("piston {} N", fixed(rod.piston, 0)), Anchor::End);
    pen.line(&[[top, BASE], [piston, BASE]], Stroke::narrow(Ink::Ink2));
    let peak = [guide, BASE + MOST];
    let fill = Fill { ink: Ink::Strut, opacity: 0.45 };
    pen.shape(&[[top, BASE], peak, [piston, BASE]], Some(fill), Some(Stroke::line(Ink::Ink, 1.0)));
    let moment = format!("bending moment {} N·m", fixed(rod.moment / 1000.0, 1));
    pen.text(Text { anchor: Anchor::Start, halo: false, ..Text::at([guide + 10.0, BASE + MOST + 4.0], &moment) });
    Scene { items: pen.items, ..Scene::new(SIZE) }
}

/// An arrow with its tip at a place, pointing down (1) or up (−1), and its value at the tail.
fn force(pen: &mut Pen, tip: P, down: f64, value: &str, anchor: Anchor) {
    let tail = [tip[0], tip[1] - 22.0 * down];
    pen.line(&[tail, tip], Stroke::line(Ink::Ink, 1.6));
    pen.arrowhead(tip, [0.0, down], Ink::Ink);
    let x = match anchor {
        Anchor::Start => tail[0] + 6.0,
        Anchor::Middle => tail[0] - 62.0,
        Anchor::End => tail[0] - 6.0,
    };
    let anchor = if anchor == Anchor::End { Anchor::End } else { Anchor::Start };
    pen.text(Text { anchor, halo: false, ..Text::at([x, tail[1] + if down > 0.0 { 6.0 } else { 2.0 }], value) });
}
