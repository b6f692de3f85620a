//! Scene → canvas.

use crate::drawing::{Anchor, Area, Fill, Ink, Item, P, Scene, Step, Stroke, Text, Theme};
use js_sys::Array;
use std::cell::RefCell;
use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

#[wasm_bindgen]
extern "C" {
    /// The same context, which here takes texts that are JavaScript's already: one of Rust's is read letter by letter on every way across the border.
    #[wasm_bindgen(extends = CanvasRenderingContext2d, js_name = CanvasRenderingContext2D)]
    type Context;
    #[wasm_bindgen(method, setter, js_name = fillStyle)]
    fn set_filled(this: &Context, colour: &JsValue);
    #[wasm_bindgen(method, setter, js_name = strokeStyle)]
    fn set_stroked(this: &Context, colour: &JsValue);
    #[wasm_bindgen(method, setter, js_name = font)]
    fn set_lettered(this: &Context, font: &JsValue);
    #[wasm_bindgen(method, setter, js_name = textAlign)]
    fn set_aligned(this: &Context, side: &JsValue);
    #[wasm_bindgen(method, js_name = strokeText)]
    fn rim(this: &Context, text: &JsValue, x: f64, y: f64);
    #[wasm_bindgen(method, js_name = fillText)]
    fn letter(this: &Context, text: &JsValue, x: f64, y: f64);
}

/// What JavaScript has been given once and is given again: a few values by their keys.
struct Kept<K>(RefCell<Vec<(K, JsValue)>>);

impl<K: PartialEq + Copy> Kept<K> {
    const fn none() -> Kept<K> {
        Kept(RefCell::new(Vec::new()))
    }

    /// Uses the value of a key, made when it is asked for first.
    fn with(&self, key: K, make: impl FnOnce() -> JsValue, act: impl FnOnce(&JsValue)) {
        let mut kept = self.0.borrow_mut();
        let at = kept.iter().position(|(other, _)| *other == key).unwrap_or_else(|| {
            kept.push((key, make()));
            kept.len() - 1
        });
        act(&kept[at].1);
    }
}

/// Texts that have been drawn, JavaScript's already: most are drawn again in the next frame, in the same order.
struct Letters {
    kept: Vec<(String, JsValue)>,
    /// Behind the one that was used last.
    next: usize,
}

/// More than the drawing, its pictorial view and a paneful of curves have.
const MOST_LETTERS: usize = 200;

impl Letters {
    /// Uses a text. It is looked for behind the one before it; a new one takes the place of what came there in the frame before.
    fn with(&mut self, text: &str, act: impl FnOnce(&JsValue)) {
        let (before, behind) = self.kept.split_at(self.next);
        let same = |(kept, _): &(String, JsValue)| kept == text;
        let found = behind.iter().position(same).map(|at| at + self.next).or_else(|| before.iter().position(same));
        let at = found.unwrap_or_else(|| {
            let new = (text.to_string(), JsValue::from_str(text));
            let at = if self.next < MOST_LETTERS { self.next } else { 0 };
            match self.kept.get_mut(at) {
                Some(old) => *old = new,
                None => self.kept.push(new),
            }
            at
        });
        self.next = at + 1;
        act(&self.kept[at].1);
    }
}

thread_local! {
    static LETTERS: RefCell<Letters> = const { RefCell::new(Letters { kept: Vec::new(), next: 0 }) };
    static SIDES: Kept<&'static str> = const { Kept::none() };
    static COLOURS: Kept<&'static str> = const { Kept::none() };
    static DASHES: Kept<&'static [f64]> = const { Kept::none() };
    static FONTS: Kept<Font> = const { Kept::none() };
}

/// Bold or not, and the size, px.
type Font = (bool, f64);

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
    lay(context, &scene.items, theme);
}

/// Paints items over nothing, in CSS px times `ratio`: on a canvas that lies over another.
pub fn overlay(context: &CanvasRenderingContext2d, items: &[Item], size: P, theme: Theme, ratio: f64) {
    let Ok(()) = context.set_transform(ratio, 0.0, 0.0, ratio, 0.0, 0.0) else { return };
    context.clear_rect(0.0, 0.0, size[0] + 1.0, size[1] + 1.0);
    lay(context, items, theme);
}

fn lay(context: &CanvasRenderingContext2d, items: &[Item], theme: Theme) {
    context.set_line_join("round");
    Pen { context: context.unchecked_ref(), theme, set: Settings::default() }.items(items);
}

/// Puts items on the canvas. What it has set it does not set again: each call is a way across the border, and most items are like the one before.
struct Pen<'a> {
    context: &'a Context,
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
    font: Option<Font>,
    anchor: Option<Anchor>,
}

/// Calls `set` unless this is set already.
fn change<T: PartialEq + Copy>(is: &mut Option<T>, to: T, set: impl FnOnce()) {
    if is.replace(to) != Some(to) {
        set();
    }
}

/// True for lines that can be drawn in one stroke.
fn alike(a: &Item, b: &Item) -> bool {
    let line = |item: &Item| match item {
        // Where two that can be seen through cross, one stroke would show the crossing once.
        Item::Path { fill: None, stroke: Some(stroke), .. } => Some(*stroke).filter(|stroke| stroke.opacity == 1.0),
        _ => None,
    };
    line(a).is_some_and(|a| line(b) == Some(a))
}

impl Pen<'_> {
    fn items(&mut self, items: &[Item]) {
        for run in items.chunk_by(alike) {
            match &run[0] {
                Item::Path { fill, stroke, .. } => self.paths(run, fill.as_ref(), stroke.as_ref()),
                Item::Text(text) => self.text(text),
                Item::Clip { area, items } => self.clip(area, items),
            }
        }
    }

    fn trace(&self, steps: &[Step]) {
        let context = self.context;
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

    /// One path, or more that are alike.
    fn paths(&mut self, paths: &[Item], fill: Option<&Fill>, stroke: Option<&Stroke>) {
        self.context.begin_path();
        for path in paths {
            if let Item::Path { steps, .. } = path {
                self.trace(steps);
            }
        }
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
        let colour = ink.colour(self.theme);
        change(&mut self.set.fill, ink, || {
            COLOURS.with(|kept| kept.with(colour, || colour.into(), |colour| self.context.set_filled(colour)));
        });
    }

    fn stroke(&mut self, ink: Ink, width: f64, dash: &'static [f64]) {
        let colour = ink.colour(self.theme);
        change(&mut self.set.stroke, ink, || {
            COLOURS.with(|kept| kept.with(colour, || colour.into(), |colour| self.context.set_stroked(colour)));
        });
        change(&mut self.set.width, width, || self.context.set_line_width(width));
        change(&mut self.set.dash, dash, || {
            let array = || dash.iter().copied().map(JsValue::from_f64).collect::<Array>().into();
            // Fails on negative lengths only.
            let set = |array: &JsValue| _ = self.context.set_line_dash(array);
            DASHES.with(|kept| kept.with(dash, array, set));
        });
    }

    fn text(&mut self, text: &Text) {
        let context = self.context;
        let [x, y] = text.at;
        self.opacity(1.0);
        let font = (text.bold, text.size);
        change(&mut self.set.font, font, || {
            let weight = if text.bold { 700 } else { 400 };
            let name = || format!("{weight} {}px \"Roboto Condensed\", sans-serif", text.size).into();
            FONTS.with(|kept| kept.with(font, name, |font| context.set_lettered(font)));
        });
        change(&mut self.set.anchor, text.anchor, || {
            let side = match text.anchor {
                Anchor::Start => "left",
                Anchor::Middle => "center",
                Anchor::End => "right",
            };
            SIDES.with(|kept| kept.with(side, || side.into(), |side| context.set_aligned(side)));
        });
        if text.halo {
            self.stroke(Ink::Paper, 3.5, &[]);
        }
        self.fill(text.ink);
        LETTERS.with_borrow_mut(|kept| {
            kept.with(&text.text, |letters| {
                if text.halo {
                    context.rim(letters, x, y);
                }
                context.letter(letters, x, y);
            });
        });
    }

    fn clip(&mut self, area: &Area, items: &[Item]) {
        self.context.save();
        let outside = self.set;
        self.context.begin_path();
        match *area {
            Area::Rect { min: [x, y], max: [right, bottom] } => self.context.rect(x, y, right - x, bottom - y),
            Area::Circle { centre, radius } => self.trace(&[Step::Circle { centre, radius }]),
        }
        self.context.clip();
        self.items(items);
        self.context.restore();
        self.set = outside;
    }
}
