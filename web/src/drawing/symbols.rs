//! Symbols: joints, springs, rack, arrows; the projection symbol and the scale bar of the title block.

use super::Sheet;
use super::ink::Ink;
use super::scene::{Anchor, Fill, P, Pen, Scene, Stroke, Text};
use super::shapes::{across, add, mix, scaled, sub, unit};

impl Pen {
    /// A filled arrowhead with its tip at `tip`, pointing along `along`.
    pub fn arrowhead(&mut self, tip: P, along: P, ink: Ink) {
        let along = unit(along);
        let (back, side) = (scaled(along, -7.5), scaled(across(along), 2.1));
        self.shape(&[tip, add(tip, add(back, side)), add(tip, sub(back, side))], Some(Fill::solid(ink)), None);
    }

    /// A line with an arrowhead at either end.
    pub fn double_arrow(&mut self, a: P, b: P, ink: Ink) {
        self.line(&[a, b], Stroke::line(ink, 1.0));
        self.arrowhead(a, sub(a, b), ink);
        self.arrowhead(b, sub(b, a), ink);
    }

    /// A ball joint: a circle.
    pub fn ball(&mut self, at: P) {
        self.disc(at, 3.6, Some(Fill::solid(Ink::Paper)), Some(Stroke::wide()));
    }

    /// A body joint: a pin on a filled triangle with a hatched base; `towards` points from the joint to the body.
    pub fn body_joint(&mut self, at: P, towards: P) {
        let along = unit(towards);
        let side = across(along);
        let base = add(at, scaled(along, 9.0));
        let corner = |k: f64| add(base, scaled(side, k));
        self.shape(&[at, corner(5.5), corner(-5.5)], Some(Fill::solid(Ink::Ink)), None);
        self.line(&[corner(8.0), corner(-8.0)], Stroke::wide());
        for k in [-6.0, -2.0, 2.0, 6.0] {
            let foot = add(corner(k), add(scaled(along, 5.0), scaled(side, -3.0)));
            self.line(&[corner(k), foot], Stroke::narrow(Ink::Ink));
        }
        self.disc(at, 2.3, Some(Fill::solid(Ink::Paper)), Some(Stroke::line(Ink::Ink, 1.0)));
    }

    /// A spring from `top` to `foot`: a zigzag on a tinted strip, with a stub at either end.
    pub fn spring(&mut self, top: P, foot: P, turns: usize, half: f64) {
        let side = scaled(across(unit(sub(foot, top))), half);
        let (a, b) = (mix(top, foot, 0.12), mix(top, foot, 0.9));
        let strip = [add(a, side), add(b, side), sub(b, side), sub(a, side)];
        self.shape(&strip, Some(Fill { ink: Ink::Strut, opacity: 0.45 }), None);
        let mut zigzag = vec![top, a];
        for i in 0..2 * turns {
            let at = mix(a, b, (i as f64 + 0.5) / (2 * turns) as f64);
            zigzag.push(if i % 2 == 0 { add(at, scaled(side, 0.7)) } else { sub(at, scaled(side, 0.7)) });
        }
        zigzag.extend([b, foot]);
        self.line(&zigzag, Stroke::line(Ink::Ink, 1.0));
        for end in [a, b] {
            self.line(&[add(end, side), sub(end, side)], Stroke::wide());
        }
    }

    /// A cross with a ring: where a pair of arms comes closest.
    pub fn crossing(&mut self, at: P) {
        for d in [[6.5, 0.0], [0.0, 6.5]] {
            self.line(&[sub(at, d), add(at, d)], Stroke::line(Ink::Ink, 1.0));
        }
        self.disc(at, 4.5, None, Some(Stroke::line(Ink::Ink, 1.0)));
    }

    /// A small ×: where the axis meets the road.
    pub fn cross(&mut self, at: P) {
        for d in [[4.0, 4.0], [4.0, -4.0]] {
            self.line(&[sub(at, d), add(at, d)], Stroke::wide());
        }
    }

    /// A centre plane's end: two short bars.
    pub fn plane_end(&mut self, [x, y]: P) {
        for dy in [-2.0, 2.0] {
            self.line(&[[x - 6.0, y + dy], [x + 6.0, y + dy]], Stroke::line(Ink::Ink2, 1.0));
        }
    }
}

/// The symbol of first-angle projection (ISO 5456-2): a truncated cone, and its view from the left placed on the right.
pub fn projection_symbol() -> Scene {
    let mut pen = Pen::default();
    pen.shape(&[[6.0, 10.0], [28.0, 5.0], [28.0, 23.0], [6.0, 18.0]], None, Some(Stroke::wide()));
    for radius in [4.0, 9.0] {
        pen.disc([46.0, 14.0], radius, None, Some(Stroke::wide()));
    }
    let axis =
        |pen: &mut Pen, a: P, b: P| pen.line(&[a, b], Stroke { dash: &[6.0, 2.0, 1.5, 2.0], ..Stroke::centre() });
    axis(&mut pen, [2.0, 14.0], [58.0, 14.0]);
    axis(&mut pen, [46.0, 2.0], [46.0, 26.0]);
    Scene { items: pen.items, ..Scene::new([60.0, 28.0]) }
}

/// A bar with round numbers of mm at the sheet's scale.
pub fn scale_bar(sheet: &Sheet) -> Scene {
    let mut pen = Pen::default();
    let room = 104.0 / sheet.scale();
    let ten = 10.0_f64.powf(room.log10().floor());
    let length = [5.0, 4.0, 2.0, 1.0].map(|k| k * ten).into_iter().find(|length| *length <= room).unwrap_or(ten);
    let (left, width) = (4.0, length * sheet.scale());
    pen.line(&[[left, 6.0], [left + width / 2.0, 6.0]], Stroke::line(Ink::Ink, 3.0));
    pen.line(&[[left + width / 2.0, 6.0], [left + width, 6.0]], Stroke::line(Ink::Ink, 1.0));
    for (part, unit) in [(0.0, ""), (0.5, ""), (1.0, " mm")] {
        let x = left + part * width;
        pen.line(&[[x, 3.0], [x, 9.0]], Stroke::line(Ink::Ink, 1.0));
        let decimals = usize::from((part * length).fract() != 0.0);
        let text = crate::text::number::fixed(part * length, decimals) + unit;
        let anchor = if part == 0.0 { Anchor::Start } else { Anchor::Middle };
        let at = [if part == 0.0 { x - 3.0 } else { x }, 20.0];
        pen.text(Text { size: 11.0, halo: false, anchor, ..Text::at(at, &text) });
    }
    Scene { items: pen.items, ..Scene::new([136.0, 24.0]) }
}
