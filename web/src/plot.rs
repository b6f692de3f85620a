//! The curves: which points, which axes, and the frame that plotters draws round them. No browser types.

use crate::document::{Document, Over};
use crate::drawing::{Anchor, Ink, Item, P, Scene, Step, Stroke, Text};
use crate::number::{Units, fixed};
use crate::study::{Curve, Solved, TRAVEL};
use kernel::{Reading, State};
use plotters::coord::ranged1d::{DefaultFormatting, KeyPointHint, Ranged};
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

/// One pinned reading over travel or over steering.
pub struct Plot {
    /// Abscissa, mm.
    pub x: Axis,
    /// Ordinate, in the unit the page shows.
    pub y: Axis,
    /// The curve at the present position.
    pub line: Vec<(f64, f64)>,
    /// The same with the other coordinate of the position at 0.
    pub faint: Vec<(f64, f64)>,
    /// Where the state is now, if it has the reading.
    pub now: Option<(f64, f64)>,
    /// The travel at which the car stands, if it is another than the layout's rest.
    pub ride: Option<f64>,
}

/// A range with round ends and the ticks on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// Least.
    pub from: f64,
    /// Greatest.
    pub to: f64,
    /// Distance of the ticks.
    pub step: f64,
}

impl Axis {
    /// The smallest range with round ends (1, 2 or 5 times a power of ten) and at most `intervals` ticks apart that holds
    /// `from..to`; at least `span` wide, so that a constant does not show its noise.
    pub fn round(from: f64, to: f64, intervals: f64, span: f64) -> Axis {
        let middle = f64::midpoint(from, to);
        let half = f64::max(to - from, span) / 2.0;
        let (from, to) = (middle - half, middle + half);
        let rough = (to - from) / intervals;
        let ten = 10.0_f64.powf(rough.log10().floor());
        let fits = |step: &f64| (to / step).ceil() - (from / step).floor() <= intervals;
        let step = [1.0, 2.0, 5.0, 10.0, 20.0].map(|k| k * ten).into_iter().find(fits).unwrap_or(50.0 * ten);
        Axis { from: (from / step).floor() * step, to: (to / step).ceil() * step, step }
    }

    /// From −`reach` to `reach`, the ends as they are: ticks at the halves where those are whole numbers.
    fn either_way(reach: f64) -> Axis {
        let reach = f64::max(reach, 1.0);
        let step = if (reach / 2.0).fract() == 0.0 { reach / 2.0 } else { reach };
        Axis { from: -reach, to: reach, step }
    }

    /// The ticks, ends included.
    pub fn ticks(&self) -> Vec<f64> {
        let count = ((self.to - self.from) / self.step).round() as i32;
        (0..=count).map(|i| self.from + f64::from(i) * self.step).collect()
    }

    /// A tick's label: as many decimals as the step needs.
    pub fn label(&self, value: f64) -> String {
        let decimals = (-self.step.log10() - 1e-9).ceil().clamp(0.0, 6.0);
        fixed(value, decimals as usize)
    }
}

/// What plotters wants to know of an axis: ticks where this program puts them.
impl Ranged for Axis {
    type FormatOption = DefaultFormatting;
    type ValueType = f64;

    fn map(&self, value: &f64, (low, high): (i32, i32)) -> i32 {
        let part = (value - self.from) / (self.to - self.from);
        low + (part * f64::from(high - low)).round() as i32
    }

    fn key_points<Hint: KeyPointHint>(&self, _: Hint) -> Vec<f64> {
        self.ticks()
    }

    fn range(&self) -> std::ops::Range<f64> {
        self.from..self.to
    }
}

/// Intervals on the upright axis: a small plot has room for four.
const INTERVALS: f64 = 4.0;

impl Plot {
    /// The plot of a reading for a document, `None` where the axle does not have it.
    pub fn new(solved: &Solved, document: &Document, reading: &Reading) -> Option<Plot> {
        let (curve, faint, at, reach) = match document.over {
            Over::Travel => (&solved.over_travel, &solved.over_travel_ahead, solved.now.travel, TRAVEL),
            Over::Steering => {
                (&solved.over_rack, &solved.over_rack_at_rest, solved.now.position.rack, document.rack_travel())
            }
        };
        let (decimals, factor, _) = document.units.shown(reading);
        let value = |state: &State| (reading.value)(state).filter(|v| v.is_finite()).map(|v| v * factor);
        let points = |curve: &Curve| curve.points.iter().filter_map(|(x, state)| Some((*x, value(state)?))).collect();
        let (line, faint): (Vec<_>, Vec<_>) = (points(curve), points(faint));
        let now = value(&solved.now).map(|y| (at, y));
        let all = || line.iter().chain(&faint).chain(&now).map(|(_, y)| *y);
        let (least, most) = (all().reduce(f64::min)?, all().reduce(f64::max)?);
        // Twenty of the last digit shown: less is not worth a curve.
        let span = 20.0 * 10.0_f64.powi(-(decimals as i32));
        let ride =
            Some(document.ride).filter(|ride| *ride != 0.0 && document.over == Over::Travel && ride.abs() <= reach);
        Some(Plot { ride, x: Axis::either_way(reach), y: Axis::round(least, most, INTERVALS, span), line, faint, now })
    }

    /// What the frame depends on: drawn anew only when this changes.
    pub fn frame_key(&self) -> (Axis, Axis) {
        (self.x.clone(), self.y.clone())
    }
}

/// Colours and sizes of a frame: grid, ticks' text, text height in backend pixels.
pub struct Look {
    /// Grid lines.
    pub grid: RGBColor,
    /// The lines at 0 and the ticks' text.
    pub ink: RGBColor,
    /// Backend pixels per CSS px.
    pub ratio: f64,
}

/// The rectangle inside the frame, backend pixels: left, top, right, bottom.
pub type Inside = [f64; 4];

/// Height of the ticks' text, CSS px.
const TEXT: f64 = 11.0;

/// Draws grid and ticks, and tells where the curves go.
pub fn frame<B: DrawingBackend>(backend: B, plot: &Plot, look: &Look) -> Result<Inside, String> {
    let px = |css: f64| (css * look.ratio).round() as i32;
    let root = backend.into_drawing_area();
    let (x, y) = (&plot.x, &plot.y);
    let text = |h, v| ("Roboto Condensed", TEXT * look.ratio).into_font().color(&look.ink).pos(Pos::new(h, v));
    let mut chart = ChartBuilder::on(&root)
        .margin_top(px(6.0))
        .margin_right(px(10.0))
        .x_label_area_size(px(20.0))
        .y_label_area_size(px(40.0))
        .build_cartesian_2d(x.clone(), y.clone())
        .map_err(|e| e.to_string())?;
    chart
        .configure_mesh()
        .light_line_style(TRANSPARENT)
        .bold_line_style(look.grid.stroke_width(px(1.0).max(1) as u32))
        .axis_style(look.grid)
        .set_all_tick_mark_size(px(4.0))
        .x_label_formatter(&|value| x.label(*value))
        .y_label_formatter(&|value| y.label(*value))
        .x_label_style(text(HPos::Center, VPos::Top))
        .y_label_style(text(HPos::Right, VPos::Center))
        .draw()
        .map_err(|e| e.to_string())?;
    let (across, down) = chart.plotting_area().get_pixel_range();
    root.present().map_err(|e| e.to_string())?;
    Ok([across.start, down.start, across.end, down.end].map(f64::from))
}

impl Plot {
    /// The curve's value at an abscissa, between its states; `None` beyond its ends.
    pub fn at(&self, x: f64) -> Option<f64> {
        let after = self.line.iter().position(|(at, _)| *at >= x)?;
        let ((x0, y0), (x1, y1)) = (self.line[after.saturating_sub(1)], self.line[after]);
        (x >= x0).then(|| if x1 > x0 { y0 + (y1 - y0) * (x - x0) / (x1 - x0) } else { y1 })
    }
}

/// The abscissa at a place across the frame.
pub fn abscissa(plot: &Plot, [left, _, right, _]: Inside, x: f64) -> f64 {
    (plot.x.from + (x - left) / (right - left) * (plot.x.to - plot.x.from)).clamp(plot.x.from, plot.x.to)
}

/// Where a point of the plot lies in the frame, backend pixels.
pub fn place(plot: &Plot, [left, top, right, bottom]: Inside, (x, y): (f64, f64)) -> (f64, f64) {
    let along = |value: f64, axis: &Axis| (value - axis.from) / (axis.to - axis.from);
    (left + along(x, &plot.x) * (right - left), bottom - along(y, &plot.y) * (bottom - top))
}

/// The whole plot as a scene, for print and export, where plotters' pixels have no place.
pub fn scene(plot: &Plot, size: P) -> Scene {
    let inside = [36.0, 6.0, size[0] - 8.0, size[1] - 18.0];
    let at = |x: f64, y: f64| {
        let (x, y) = place(plot, inside, (x, y));
        [x, y]
    };
    let mut scene = Scene::new(size);
    let mut line = |points: Vec<P>, stroke: Stroke| {
        let steps = points.iter().enumerate().map(|(i, p)| if i == 0 { Step::Move(*p) } else { Step::Line(*p) });
        scene.items.push(Item::Path { steps: steps.collect(), fill: None, stroke: Some(stroke) });
    };
    let (x, y) = (&plot.x, &plot.y);
    for tick in x.ticks() {
        line(vec![at(tick, y.from), at(tick, y.to)], Stroke::line(Ink::Rule, 0.8));
    }
    for tick in y.ticks() {
        line(vec![at(x.from, tick), at(x.to, tick)], Stroke::line(Ink::Rule, 0.8));
    }
    let curve = |points: &[(f64, f64)]| points.iter().map(|(x, y)| at(*x, *y)).collect();
    line(curve(&plot.faint), Stroke::line(Ink::Ghost, 0.9));
    line(curve(&plot.line), Stroke::line(Ink::Ink, 1.35));
    if let Some(ride) = plot.ride {
        line(vec![at(ride, y.from), at(ride, y.to)], Stroke { dash: &[4.0, 3.0], ..Stroke::line(Ink::Ink2, 0.9) });
    }
    if let Some((now, _)) = plot.now {
        line(vec![at(now, y.from), at(now, y.to)], Stroke::line(Ink::Selected, 0.9));
    }
    let label = |at: P, text: String, anchor: Anchor| {
        Item::Text(Text { size: 11.0, ink: Ink::Ink2, anchor, halo: false, ..Text::at(at, &text) })
    };
    scene
        .items
        .extend(x.ticks().iter().map(|v| label([at(*v, y.from)[0], size[1] - 6.0], x.label(*v), Anchor::Middle)));
    scene.items.extend(y.ticks().iter().map(|v| label([32.0, at(x.from, *v)[1] + 4.0], y.label(*v), Anchor::End)));
    scene
}

/// A sparkline of a reading over travel: SVG path data in a box of the given size, and where the state is now.
pub fn sparkline(
    curve: &Curve,
    now: &State,
    reading: &Reading,
    [width, height]: [f64; 2],
) -> Option<(String, [f64; 2])> {
    let (least, most) = curve.range(reading.value)?;
    let (decimals, factor, _) = Units::default().shown(reading);
    // What would round to a constant is drawn as one.
    let span = f64::max(most - least, 5.0 * 10.0_f64.powi(-(decimals as i32)) / factor);
    let middle = f64::midpoint(least, most);
    let place = |x: f64, y: f64| [(x / TRAVEL + 1.0) / 2.0 * width, (0.5 - (y - middle) / span) * (height - 4.0) + 2.0];
    let mut path = String::new();
    // Every second state: two pixels apart are enough for forty.
    for (x, state) in curve.points.iter().step_by(2) {
        let Some(y) = (reading.value)(state) else { continue };
        let [x, y] = place(*x, y);
        path += &format!("{}{x:.1} {y:.1}", if path.is_empty() { "M" } else { "L" });
    }
    let at = now.travel.clamp(-TRAVEL, TRAVEL);
    let dot = (reading.value)(now).map(|y| place(at, y))?;
    Some((path, [dot[0], dot[1].clamp(0.0, height)]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axes_have_round_ends_that_hold_the_range() {
        for (from, to) in
            [(-60.0, 60.0), (-75.0, 75.0), (-2.09, -0.19), (0.0, 0.0), (4.18, 4.5), (-1e-9, 1e-9), (1e5, 3e5)]
        {
            let axis = Axis::round(from, to, 4.0, 0.1);
            let ticks = axis.ticks();
            assert!(axis.from <= from && axis.to >= to, "{axis:?}");
            assert!((2..=5).contains(&ticks.len()), "{axis:?}");
            assert!((ticks[ticks.len() - 1] - axis.to).abs() < 1e-9 * axis.step, "{axis:?}");
        }
        assert_eq!(Axis::round(-60.0, 60.0, 4.0, 0.0).label(-50.0), "\u{2212}50");
        assert_eq!(Axis::round(4.18, 4.5, 4.0, 0.0).label(4.2), "4.2");
    }
}
