//! Plot → canvas: plotters draws the frame, once for each pair of axes; the curves are a drawing's lines, so that they do not step.

use super::canvas::{context, overlay};
use crate::drawing::{Ink, P, Theme};
use crate::plot::{Axis, Inside, Look, Plot, abscissa, frame, over_frame};
use plotters::style::RGBColor;
use plotters_canvas::CanvasBackend;
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
    context(canvas, size, ratio)?.clear_rect(0.0, 0.0, size[0] * ratio, size[1] * ratio);
    let look = Look { grid: rgb(Ink::Rule, theme), ink: rgb(Ink::Ink2, theme), ratio };
    let inside = frame(CanvasBackend::with_canvas_object(canvas.clone())?, plot, &look).ok()?;
    Some(Framed { key, size, ratio, theme, inside })
}

/// Draws the curves and the mark where the state is now, on a canvas that lies over the frame.
pub fn draw_curves(canvas: &HtmlCanvasElement, plot: &Plot, framed: &Framed, hovered: Option<f64>) {
    let Framed { size, ratio, theme, inside, .. } = *framed;
    let Some(context) = context(canvas, size, ratio) else { return };
    overlay(&context, &over_frame(plot, inside.map(|px| px / ratio), hovered), size, theme, ratio);
}

/// A token's colour for plotters: `#RRGGBB` as three numbers.
fn rgb(ink: Ink, theme: Theme) -> RGBColor {
    let hex = u32::from_str_radix(ink.colour(theme).trim_start_matches('#'), 16).unwrap_or_default();
    let [_, r, g, b] = hex.to_be_bytes();
    RGBColor(r, g, b)
}
