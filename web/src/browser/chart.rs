//! Plot → canvas: plotters draws the frame, once for each pair of axes; the curves are path calls, so that they do not step.

use crate::drawing::{Ink, P, Theme};
use crate::plot::{self, Axis, Inside, Look, Plot, abscissa, frame, place};
use js_sys::Array;
use plotters::style::RGBColor;
use plotters_canvas::CanvasBackend;
use wasm_bindgen::JsValue;
use web_sys::HtmlCanvasElement;

/// A frame on its canvas: kept until axes, size or theme change.
#[derive(Clone, PartialEq)]
pub struct Framed {
    key: (Axis, Axis, bool),
    size: P,
    ratio: f64,
    theme: Theme,
    inside: Inside,
}

impl Framed {
    /// The axis of the reading.
    pub fn scale(&self) -> &Axis {
        &self.key.1
    }

    /// The abscissa under a place on the plot, CSS px.
    pub fn abscissa(&self, plot: &Plot, at: P) -> f64 {
        abscissa(plot, self.inside, at.map(|px| px * self.ratio))
    }
}

/// Draws the frame unless `before` is the same one. `None` if the canvas can't be drawn on.
pub fn draw_frame(
    canvas: &HtmlCanvasElement,
    plot: &Plot,
    size: P,
    ratio: f64,
    theme: Theme,
    before: Option<Framed>,
) -> Option<Framed> {
    let key = plot.frame_key();
    if let Some(same) = before.filter(|b| b.key == key && b.size == size && b.ratio == ratio && b.theme == theme) {
        return Some(same);
    }
    super::canvas::context(canvas, size, ratio)?.clear_rect(0.0, 0.0, size[0] * ratio, size[1] * ratio);
    let look = Look { grid: rgb(Ink::Rule, theme), ink: rgb(Ink::Ink2, theme), ratio };
    let inside = frame(CanvasBackend::with_canvas_object(canvas.clone())?, plot, &look).ok()?;
    Some(Framed { key, size, ratio, theme, inside })
}

/// Draws the curves and the mark where the state is now, on a canvas that lies over the frame.
pub fn draw_curves(canvas: &HtmlCanvasElement, plot: &Plot, framed: &Framed, hovered: Option<f64>) {
    let Framed { size, ratio, theme, inside, .. } = *framed;
    let Some(context) = super::canvas::context(canvas, size, ratio) else { return };
    context.clear_rect(0.0, 0.0, size[0] * ratio, size[1] * ratio);
    context.set_line_join("round");
    let dashed = |dash: &[f64]| {
        let dash: Array = dash.iter().map(|px| JsValue::from_f64(px * ratio)).collect();
        // Fails on negative lengths only.
        let _ = context.set_line_dash(&dash);
    };
    dashed(&[]);
    // What runs into a pole leaves the frame.
    let [left, top, right, bottom] = inside;
    context.save();
    context.begin_path();
    context.rect(left - ratio, top - ratio, right - left + 2.0 * ratio, bottom - top + 2.0 * ratio);
    context.clip();
    let stroke = |ink: Ink, width: f64, points: &[(f64, f64)]| {
        context.set_stroke_style_str(ink.colour(theme));
        context.set_line_width(width * ratio);
        context.begin_path();
        for (i, point) in points.iter().enumerate() {
            let (x, y) = place(plot, inside, *point);
            if i == 0 { context.move_to(x, y) } else { context.line_to(x, y) }
        }
        context.stroke();
    };
    plot.faint.iter().for_each(|piece| stroke(Ink::Ghost, 1.0, piece));
    dashed(plot::COMPARED);
    plot.compared.iter().for_each(|piece| stroke(Ink::Compared, 1.2, piece));
    dashed(&[]);
    plot.line.iter().for_each(|piece| stroke(Ink::Ink, 1.5, piece));
    dashed(&[4.0, 3.0]);
    for x in plot.marks.iter().copied() {
        stroke(Ink::Ink2, 1.0, &[(x, plot.y.from), (x, plot.y.to)]);
    }
    dashed(&[]);
    if let Some(x) = hovered {
        stroke(Ink::Ink2, 1.0, &[(x, plot.y.from), (x, plot.y.to)]);
    }
    let now = plot.now.map(|(x, y)| (x.clamp(plot.x.from, plot.x.to), y));
    if let Some((x, _)) = now {
        stroke(Ink::Selected, 1.0, &[(x, plot.y.from), (x, plot.y.to)]);
    }
    context.restore();
    if let Some((x, y)) = now.filter(|(_, y)| (plot.y.from..=plot.y.to).contains(y)) {
        let (x, y) = place(plot, inside, (x, y));
        context.set_fill_style_str(Ink::Selected.colour(theme));
        context.begin_path();
        let _ = context.arc(x, y, 3.0 * ratio, 0.0, std::f64::consts::TAU);
        context.fill();
    }
}

/// A token's colour for plotters: `#RRGGBB` as three numbers.
fn rgb(ink: Ink, theme: Theme) -> RGBColor {
    let hex = u32::from_str_radix(ink.colour(theme).trim_start_matches('#'), 16).unwrap_or_default();
    let [_, r, g, b] = hex.to_be_bytes();
    RGBColor(r, g, b)
}
