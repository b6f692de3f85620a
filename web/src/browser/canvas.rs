//! Scene → canvas.

use crate::drawing::{Anchor, Area, Fill, Ink, Item, P, Scene, Step, Stroke, Text, Theme};
use js_sys::Array;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// The 2-D context of a canvas whose backing store has `ratio` device pixels per CSS px; `None` where there is none to be had.
pub fn context(canvas: &HtmlCanvasElement, size: P, ratio: f64) -> Option<CanvasRenderingContext2d> {
    let [width, height] = size.map(|px| (px * ratio).round().max(1.0) as u32);
    // Setting a size clears and reallocates the canvas, even to the same value.
    if (canvas.width(), canvas.height()) != (width, height) {
        canvas.set_width(width);
        canvas.set_height(height);
    }
    canvas.get_context("2d").ok()??.dyn_into().ok()
}

/// Paints a scene, in CSS px times `ratio`, on paper that hides whatever the canvas shows: a film of it has no other background.
pub fn paint(context: &CanvasRenderingContext2d, scene: &Scene, theme: Theme, ratio: f64) {
    let Ok(()) = context.set_transform(ratio, 0.0, 0.0, ratio, 0.0, 0.0) else { return };
    context.set_global_alpha(1.0);
    context.set_fill_style_str(Ink::Paper.colour(theme));
    // A pixel more: the canvas is a whole number of device pixels.
    context.fill_rect(0.0, 0.0, scene.size[0] + 1.0, scene.size[1] + 1.0);
    context.set_line_join("round");
    Pen { context, theme, set: Settings::default() }.items(&scene.items);
}

/// Puts items on the canvas. What it has set it does not set again: each call is a way across the border, and most items are like the one before.
struct Pen<'a> {
    context: &'a CanvasRenderingContext2d,
    theme: Theme,
    set: Settings,
}

/// What the pen has set; `None` is not known.
#[derive(Clone, Copy, Default)]
struct Settings {
    fill: Option<Ink>,
    stroke: Option<Ink>,
    opacity: Option<f64>,
    width: Option<f64>,
    round: Option<bool>,
    dash: Option<&'static [f64]>,
    /// Bold or not, and the size, px.
    font: Option<(bool, f64)>,
    anchor: Option<Anchor>,
}

/// Calls `set` unless this is set already.
fn change<T: PartialEq + Copy>(is: &mut Option<T>, to: T, set: impl FnOnce()) {
    if is.replace(to) != Some(to) {
        set();
    }
}

impl Pen<'_> {
    fn items(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Path { steps, fill, stroke } => self.path(steps, fill.as_ref(), stroke.as_ref()),
                Item::Text(text) => self.text(text),
                Item::Clip { area, items } => self.clip(area, items),
            }
        }
    }

    fn trace(&self, steps: &[Step]) {
        let context = self.context;
        context.begin_path();
        for step in steps {
            match step {
                Step::Move([x, y]) => context.move_to(*x, *y),
                Step::Line([x, y]) => context.line_to(*x, *y),
                Step::Circle { centre: [x, y], radius } => {
                    context.move_to(x + radius, *y);
                    // Only a negative radius fails.
                    let _ = context.arc(*x, *y, radius.max(0.0), 0.0, std::f64::consts::TAU);
                }
                Step::Close => context.close_path(),
            }
        }
    }

    fn path(&mut self, steps: &[Step], fill: Option<&Fill>, stroke: Option<&Stroke>) {
        self.trace(steps);
        if let Some(fill) = fill {
            self.opacity(fill.opacity);
            self.fill(fill.ink);
            self.context.fill();
        }
        if let Some(stroke) = stroke {
            self.opacity(stroke.opacity);
            self.stroke(stroke.ink, stroke.width, stroke.dash);
            let (context, round) = (self.context, stroke.round);
            change(&mut self.set.round, round, || context.set_line_cap(if round { "round" } else { "butt" }));
            context.stroke();
        }
    }

    fn opacity(&mut self, opacity: f64) {
        change(&mut self.set.opacity, opacity, || self.context.set_global_alpha(opacity));
    }

    fn fill(&mut self, ink: Ink) {
        change(&mut self.set.fill, ink, || self.context.set_fill_style_str(ink.colour(self.theme)));
    }

    fn stroke(&mut self, ink: Ink, width: f64, dash: &'static [f64]) {
        change(&mut self.set.stroke, ink, || self.context.set_stroke_style_str(ink.colour(self.theme)));
        change(&mut self.set.width, width, || self.context.set_line_width(width));
        change(&mut self.set.dash, dash, || {
            let array: Array = dash.iter().copied().map(JsValue::from_f64).collect();
            // Fails on negative lengths only.
            let _ = self.context.set_line_dash(&array);
        });
    }

    fn text(&mut self, text: &Text) {
        let context = self.context;
        let [x, y] = text.at;
        self.opacity(1.0);
        change(&mut self.set.font, (text.bold, text.size), || {
            let weight = if text.bold { 700 } else { 400 };
            context.set_font(&format!("{weight} {}px \"Roboto Condensed\", sans-serif", text.size));
        });
        change(&mut self.set.anchor, text.anchor, || {
            context.set_text_align(match text.anchor {
                Anchor::Start => "left",
                Anchor::Middle => "center",
                Anchor::End => "right",
            });
        });
        if text.halo {
            self.stroke(Ink::Paper, 3.5, &[]);
            let _ = context.stroke_text(&text.text, x, y);
        }
        self.fill(text.ink);
        let _ = context.fill_text(&text.text, x, y);
    }

    fn clip(&mut self, area: &Area, items: &[Item]) {
        self.context.save();
        let outside = self.set;
        match *area {
            Area::Rect { min: [x, y], max: [right, bottom] } => {
                self.context.begin_path();
                self.context.rect(x, y, right - x, bottom - y);
            }
            Area::Circle { centre, radius } => self.trace(&[Step::Circle { centre, radius }]),
        }
        self.context.clip();
        self.items(items);
        self.context.restore();
        self.set = outside;
    }
}
