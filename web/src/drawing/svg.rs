//! Scene → SVG: for export, print and tests.

use crate::drawing::{Anchor, Area, Fill, Item, Scene, Step, Stroke, Text, Theme};
use std::fmt::Write;

/// The scene as an SVG document of its own.
pub fn svg(scene: &Scene, theme: Theme) -> String {
    named(scene, theme, "c")
}

/// The same beside others on one page: what its clips are called begins with a name of its own.
pub fn named(scene: &Scene, theme: Theme, name: &str) -> String {
    let [width, height] = scene.size;
    let mut out = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" viewBox="0 0 {width} {height}" font-family="Roboto Condensed, Arial Narrow, sans-serif">"#
    );
    items(&mut out, &scene.items, theme, &mut Clips { name, count: 0 });
    out + "</svg>"
}

/// What clips are called, and how many there are.
struct Clips<'a> {
    name: &'a str,
    count: u32,
}

fn items(out: &mut String, items_: &[Item], theme: Theme, clips: &mut Clips) {
    for item in items_ {
        match item {
            Item::Path { steps, fill, stroke } => path(out, steps, fill.as_ref(), stroke.as_ref(), theme),
            Item::Text(text_) => text(out, text_, theme),
            Item::Clip { area, items: inside } => {
                clips.count += 1;
                let id = format!("{}{}", clips.name, clips.count);
                let shape = match *area {
                    Area::Rect { min: [x, y], max: [right, bottom] } => {
                        format!(r#"<rect x="{x:.2}" y="{y:.2}" width="{:.2}" height="{:.2}"/>"#, right - x, bottom - y)
                    }
                    Area::Circle { centre: [x, y], radius } => {
                        format!(r#"<circle cx="{x:.2}" cy="{y:.2}" r="{radius:.2}"/>"#)
                    }
                };
                *out += &format!(r##"<clipPath id="{id}">{shape}</clipPath><g clip-path="url(#{id})">"##);
                items(out, inside, theme, clips);
                *out += "</g>";
            }
        }
    }
}

fn path(out: &mut String, steps: &[Step], fill: Option<&Fill>, stroke: Option<&Stroke>, theme: Theme) {
    *out += r#"<path d=""#;
    for step in steps {
        // Writing to a string does not fail.
        let _ = match step {
            Step::Move([x, y]) => write!(out, "M{x:.2} {y:.2}"),
            Step::Line([x, y]) => write!(out, "L{x:.2} {y:.2}"),
            Step::Circle { centre: [x, y], radius: r } => {
                write!(out, "M{:.2} {y:.2}A{r} {r} 0 1 0 {:.2} {y:.2}A{r} {r} 0 1 0 {:.2} {y:.2}Z", x + r, x - r, x + r)
            }
            Step::Close => write!(out, "Z"),
        };
    }
    *out += r#"""#;
    match fill {
        Some(fill) => *out += &format!(r#" fill="{}" fill-opacity="{}""#, fill.ink.colour(theme), fill.opacity),
        None => *out += r#" fill="none""#,
    }
    if let Some(stroke) = stroke {
        let Stroke { ink, width, dash, opacity, round } = stroke;
        *out += &format!(
            r#" stroke="{}" stroke-width="{width}" stroke-opacity="{opacity}" stroke-linejoin="round""#,
            ink.colour(theme)
        );
        if !dash.is_empty() {
            let dash: Vec<String> = dash.iter().map(f64::to_string).collect();
            *out += &format!(r#" stroke-dasharray="{}""#, dash.join(" "));
        }
        if *round {
            *out += r#" stroke-linecap="round""#;
        }
    }
    *out += "/>";
}

fn text(out: &mut String, text: &Text, theme: Theme) {
    let Text { at: [x, y], text, size, bold, anchor, ink, halo } = text;
    let anchor = match anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let weight = if *bold { 700 } else { 400 };
    let rim = if *halo {
        let paper = crate::drawing::Ink::Paper.colour(theme);
        format!(r#" stroke="{paper}" stroke-width="3.5" stroke-linejoin="round" paint-order="stroke""#)
    } else {
        String::new()
    };
    let colour = ink.colour(theme);
    *out += &format!(
        r#"<text x="{x:.2}" y="{y:.2}" font-size="{size}" font-weight="{weight}" text-anchor="{anchor}" fill="{colour}"{rim}>{}</text>"#,
        escaped(text)
    );
}

/// Text as text, never as markup.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}
