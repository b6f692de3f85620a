//! A histogram as SVG: bars over an axis of three numbers, with marks across it.

use crate::text::number::fixed;
use std::fmt::Write;

/// Width and height of the whole, and the room for numbers below and names above, px.
const WIDTH: f64 = 420.0;
const HEIGHT: f64 = 130.0;
const BELOW: f64 = 18.0;
const ABOVE: f64 = 16.0;

/// Of how many values lie in each of as many equal parts of a range; `marks` are places in it with a name. Numbers have so many decimals; `about` is
/// told to whoever can't see it.
pub fn bars(counts: &[usize], [least, most]: [f64; 2], marks: &[(f64, &str)], decimals: usize, about: &str) -> String {
    let highest = counts.iter().copied().max().unwrap_or(0).max(1) as f64;
    let step = WIDTH / counts.len().max(1) as f64;
    let floor = HEIGHT - BELOW;
    let mut svg = format!("<svg viewBox=\"0 0 {WIDTH} {HEIGHT}\" role=\"img\" aria-label=\"{about}\">");
    for (at, count) in counts.iter().enumerate() {
        let high = (floor - ABOVE) * *count as f64 / highest;
        let (x, y) = (at as f64 * step, floor - high);
        let _ = write!(svg, "<rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{step:.1}\" height=\"{high:.1}\"/>");
    }
    let _ = write!(svg, "<line x1=\"0\" y1=\"{floor}\" x2=\"{WIDTH}\" y2=\"{floor}\"/>");
    // All alike: there is no width to place anything in.
    let width = if most > least { most - least } else { f64::INFINITY };
    for (value, name) in marks.iter().filter(|(value, _)| (least..=most).contains(value)) {
        let x = (value - least) / width * WIDTH;
        let _ = write!(svg, "<line class=\"mark\" x1=\"{x:.1}\" y1=\"{ABOVE}\" x2=\"{x:.1}\" y2=\"{floor}\"/>");
        let anchor = anchor(x);
        let _ = write!(svg, "<text x=\"{x:.1}\" y=\"12\" text-anchor=\"{anchor}\">{name}</text>");
    }
    for (x, value) in [(0.0, least), (WIDTH / 2.0, (least + most) / 2.0), (WIDTH, most)] {
        let (y, anchor) = (HEIGHT - 4.0, anchor(x));
        let _ = write!(svg, "<text x=\"{x}\" y=\"{y}\" text-anchor=\"{anchor}\">{}</text>", fixed(value, decimals));
    }
    svg + "</svg>"
}

/// Letters stay inside: at the ends they begin or end there.
fn anchor(x: f64) -> &'static str {
    let near = WIDTH / 8.0;
    if x < near {
        "start"
    } else if x > WIDTH - near {
        "end"
    } else {
        "middle"
    }
}
