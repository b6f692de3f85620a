//! The curves: which points, which axes, and the frame that plotters draws round them. No browser types. Long because axes, curves and marks are one picture.

mod axis;
mod bars;
mod pieces;
mod wanted;

pub use axis::Axis;
pub use bars::bars;
use pieces::{Points, needed, pieces, range};
pub use wanted::WantedLine;

use crate::document::place::ROLL;
use crate::document::{Document, Over};
use crate::drawing::{Anchor, Area, Fill, Ink, Item, P, Scene, Step, Stroke, Text};
use crate::study::{Curve, Solved, Study};
use crate::text::number::Units;
use kernel::{Reading, Snapshot, Subject};
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};

/// One pinned reading over travel or over steering.
pub struct Plot {
    /// Abscissa, mm.
    pub x: Axis,
    /// Ordinate, in the unit the page shows.
    pub y: Axis,
    /// The curve at the present position, in pieces.
    pub line: Vec<Points>,
    /// The same with the other coordinate of the position at 0.
    pub faint: Vec<Points>,
    /// The same of the axle laid over.
    pub compared: Vec<Points>,
    /// Between what the curve may lie.
    pub band: Option<Band>,
    /// Where the state is now, if it has the reading.
    pub now: Option<(f64, f64)>,
    /// The abscissa stands upright.
    pub upright: bool,
    /// Dashed lines across: the travel at which the car stands, if it is another than the layout's rest, and the stops.
    pub marks: Vec<f64>,
}

/// Between what a curve over travel may lie, from its points' ±.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// The most and the least.
    pub lines: [Points; 2],
    /// It is one of before the last change.
    pub stale: bool,
}

/// The dash of what is laid over, px.
pub const COMPARED: &[f64] = &[11.0, 2.5, 1.5, 2.5, 1.5, 2.5];

/// The dots of the lines that a curve may lie between, px.
pub const BAND: &[f64] = &[1.5, 2.0];

/// Intervals on the upright axis: a small plot has room for four.
const INTERVALS: f64 = 4.0;

impl Plot {
    /// The plot of a reading for a document, `None` where the axle does not have it.
    pub fn new(study: &Study, document: &Document, reading: &Reading) -> Option<Plot> {
        let solved = &study.good;
        // One wheel alone does not roll.
        let over = if document.over == Over::Roll && !document.whole { Over::Travel } else { document.over };
        let (decimals, factor, _) = document.units.shown(reading);
        let (at, reach) = match over {
            Over::Travel | Over::TravelUpright => (document.travel, solved.reach),
            Over::Steering => (document.rack, document.rack_travel()),
            Over::Roll => (document.roll, ROLL),
        };
        let shown = |value: Option<f64>| value.filter(|v| v.is_finite()).map(|v| v * factor);
        // Twenty of the last digit shown: less is not worth a curve.
        let span = 20.0 * 10.0_f64.powi(-(decimals as i32));
        let value = |snapshot: &Snapshot| shown((reading.value)(snapshot));
        let of = reading.subject();
        let line = curve(solved, over, of, span, value);
        let faint = faint_curve(solved, over, of, span, value);
        let now = value(&solved.now_and_at_rest()[0]).map(|y| (at, y));
        let compared = match &study.compared {
            Some(other) if of != Subject::Axle => curve(other, over, of, span, value),
            _ => Vec::new(),
        };
        let (least, most) = range(&[&line, &faint, &compared], now.map(|(_, y)| y))?;
        let along = matches!(over, Over::Travel | Over::TravelUpright);
        let stops = solved.layout().stops.map(|stops| [stops.bump, -stops.rebound]);
        let marks = [document.ride()].into_iter().chain(stops.into_iter().flatten());
        let marks = marks.filter(|at| along && *at != 0.0 && at.abs() <= reach).collect();
        let upright = over == Over::TravelUpright;
        Some(Plot {
            marks,
            upright,
            x: Axis::either_way(reach),
            y: Axis::round(least, most, INTERVALS, span),
            line,
            faint,
            compared,
            band: None,
            now,
        })
    }

    /// A plot of something else over travel, `reach` each way; `None` without points.
    pub fn over_travel(line: Points, travel: f64, reach: f64) -> Option<Plot> {
        let least = line.iter().map(|(_, y)| *y).reduce(f64::min)?;
        let most = line.iter().map(|(_, y)| *y).reduce(f64::max)?;
        let mut plot = Plot {
            x: Axis::either_way(reach),
            y: Axis::round(least.min(0.0), most, INTERVALS, 1.0),
            line: vec![line],
            faint: Vec::new(),
            compared: Vec::new(),
            band: None,
            now: None,
            upright: false,
            marks: Vec::new(),
        };
        plot.now = plot.at(travel).map(|y| (travel, y));
        Some(plot)
    }

    /// The same with the band that its curve may lie in; over anything but travel there is none. A curve with a pole keeps its scale.
    pub fn within(mut self, band: Option<Band>, over: Over) -> Plot {
        let along = matches!(over, Over::Travel | Over::TravelUpright);
        self.band = band.filter(|_| along);
        if let Some(Band { lines: [most, least], .. }) = self.band.as_ref().filter(|_| self.line.len() == 1) {
            let ends = [self.y.from, self.y.to];
            let from = least.iter().map(|(_, y)| *y).fold(ends[0], f64::min);
            let to = most.iter().map(|(_, y)| *y).fold(ends[1], f64::max);
            if [from, to] != ends {
                self.y = Axis::round(from, to, INTERVALS, 0.0);
            }
        }
        self
    }

    /// The same on a scale that does not shrink under a hand, unless what is shown has become a small part of it.
    pub fn steady(&mut self, before: &Axis) {
        self.y = self.y.no_narrower(before, INTERVALS);
    }

    /// What the frame depends on: drawn anew only when this changes.
    pub fn frame_key(&self) -> (Axis, Axis, bool) {
        (self.x.clone(), self.y.clone(), self.upright)
    }

    /// Where the state is now; beyond the curve's ends at its end.
    fn shown_now(&self) -> Option<(f64, f64)> {
        self.now.map(|(x, y)| (x.clamp(self.x.from, self.x.to), y))
    }

    /// The axes as they lie on paper: across and up.
    fn axes(&self) -> [&Axis; 2] {
        if self.upright { [&self.y, &self.x] } else { [&self.x, &self.y] }
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
    let [x, y] = plot.axes();
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

/// A curve in its pieces.
type Line = Vec<Points>;

/// The curve of a reading; over roll, and of what is read of the whole axle, of both wheels. A change by less than `span` is none.
fn curve(solved: &Solved, over: Over, of: Subject, span: f64, value: impl Fn(&Snapshot) -> Option<f64>) -> Line {
    match over {
        _ if of == Subject::Axle => of_both(solved, span, value),
        Over::Travel | Over::TravelUpright => of_one(solved, solved.over_travel(), of, span, value),
        Over::Steering => of_one(solved, solved.over_rack(), of, span, value),
        Over::Roll => of_both(solved, span, value),
    }
}

/// The same with the other coordinate of the position at 0; there is none of both wheels.
fn faint_curve(solved: &Solved, over: Over, of: Subject, span: f64, value: impl Fn(&Snapshot) -> Option<f64>) -> Line {
    match over {
        _ if of == Subject::Axle => Vec::new(),
        Over::Travel | Over::TravelUpright => of_one(solved, solved.over_travel_ahead(), of, span, value),
        Over::Steering => of_one(solved, solved.over_rack_at_rest(), of, span, value),
        Over::Roll => Vec::new(),
    }
}

fn of_one(solved: &Solved, curve: &Curve, of: Subject, span: f64, value: impl Fn(&Snapshot) -> Option<f64>) -> Line {
    pieces(solved.places(curve, of).map(|(x, place)| (x, value(&place))), span)
}

fn of_both(solved: &Solved, span: f64, value: impl Fn(&Snapshot) -> Option<f64>) -> Line {
    pieces(solved.over_whole().iter().map(|(x, whole)| (*x, value(&Snapshot::both(whole)))), span)
}

impl Plot {
    /// The curve's value at an abscissa, between its states; `None` beyond its ends and in its gaps.
    pub fn at(&self, x: f64) -> Option<f64> {
        self.line.iter().find_map(|piece| {
            let after = piece.iter().position(|(at, _)| *at >= x)?;
            let ((x0, y0), (x1, y1)) = (piece[after.saturating_sub(1)], piece[after]);
            (x >= x0).then(|| if x1 > x0 { y0 + (y1 - y0) * (x - x0) / (x1 - x0) } else { y1 })
        })
    }
}

/// The abscissa at a place in the frame, backend pixels.
pub fn abscissa(plot: &Plot, [left, top, right, bottom]: Inside, [x, y]: P) -> f64 {
    let part = if plot.upright { (bottom - y) / (bottom - top) } else { (x - left) / (right - left) };
    (plot.x.from + part * (plot.x.to - plot.x.from)).clamp(plot.x.from, plot.x.to)
}

/// Where a point of the plot lies in the frame, backend pixels.
pub fn place(plot: &Plot, [left, top, right, bottom]: Inside, (x, y): (f64, f64)) -> (f64, f64) {
    let along = |value: f64, axis: &Axis| (value - axis.from) / (axis.to - axis.from);
    let [across, up] = plot.axes();
    let (x, y) = if plot.upright { (y, x) } else { (x, y) };
    (left + along(x, across) * (right - left), bottom - along(y, up) * (bottom - top))
}

/// A line through points of the plot; `None` without any.
fn line(plot: &Plot, inside: Inside, points: &[(f64, f64)], stroke: Stroke) -> Option<Item> {
    let mut steps: Vec<Step> = points.iter().map(|point| Step::Line(place(plot, inside, *point).into())).collect();
    let first = steps.first_mut()?;
    *first = Step::Move(place(plot, inside, points[0]).into());
    Some(Item::Path { steps, fill: None, stroke: Some(stroke) })
}

/// All lines in the frame: the curves, the marks, where a pointer is, where the state is now; the widths of thin and of wide ones, px. With a
/// `hair`, curves are drawn through the points that they need to pass the others within so many px, along the ordinate.
fn lines(plot: &Plot, inside: Inside, [thin, wide]: [f64; 2], hovered: Option<f64>, hair: Option<f64>) -> Vec<Item> {
    let across = |x: f64| vec![(x, plot.y.from), (x, plot.y.to)];
    let marks: Vec<Points> = plot.marks.iter().map(|x| across(*x)).collect();
    let hovered: Vec<Points> = hovered.into_iter().map(across).collect();
    let now: Vec<Points> = plot.shown_now().into_iter().map(|(x, _)| across(x)).collect();
    let of = |lines: &[Points], stroke: Stroke| -> Vec<Item> {
        lines.iter().filter_map(|points| line(plot, inside, points, stroke)).collect()
    };
    let [left, top, right, bottom] = inside;
    let px = if plot.upright { right - left } else { bottom - top };
    let near = hair.map(|hair| hair / px * (plot.y.to - plot.y.from));
    let curves = |lines: &[Points], stroke: Stroke| match near {
        Some(near) => of(&lines.iter().map(|points| needed(points, near)).collect::<Vec<_>>(), stroke),
        None => of(lines, stroke),
    };
    // Dotted lines, narrow (ISO 128-2, type 07): not on the curve, beside it.
    let (band, ink) = match &plot.band {
        Some(band) => (&band.lines[..], if band.stale { Ink::Rule } else { Ink::Ink2 }),
        None => (&[][..], Ink::Rule),
    };
    [
        curves(band, Stroke { dash: BAND, ..Stroke::line(ink, thin) }),
        curves(&plot.faint, Stroke::line(Ink::Ghost, thin)),
        curves(&plot.compared, Stroke { dash: COMPARED, ..Stroke::line(Ink::Compared, 1.2) }),
        curves(&plot.line, Stroke::line(Ink::Ink, wide)),
        of(&marks, Stroke { dash: &[4.0, 3.0], ..Stroke::line(Ink::Ink2, thin) }),
        of(&hovered, Stroke::line(Ink::Ink2, thin)),
        of(&now, Stroke::line(Ink::Selected, thin)),
    ]
    .concat()
}

/// What runs into a pole leaves the frame: it is seen as far as here.
fn around([left, top, right, bottom]: Inside) -> Area {
    Area::Rect { min: [left - 1.0, top - 1.0], max: [right + 1.0, bottom + 1.0] }
}

/// What lies over a frame on the page: all lines, and a dot where the state is now.
pub fn over_frame(plot: &Plot, inside: Inside, hovered: Option<f64>) -> Vec<Item> {
    let lines = Item::Clip { area: around(inside), items: lines(plot, inside, [1.0, 1.5], hovered, Some(HAIR)) };
    let now = plot.shown_now().filter(|(_, y)| (plot.y.from..=plot.y.to).contains(y));
    let dot = now.map(|now| Item::Path {
        steps: vec![Step::Circle { centre: place(plot, inside, now).into(), radius: 3.0 }],
        fill: Some(Fill::solid(Ink::Selected)),
        stroke: None,
    });
    [lines].into_iter().chain(dot).collect()
}

/// The whole plot as a scene, for print and export, where plotters' pixels have no place.
pub fn scene(plot: &Plot, size: P) -> Scene {
    Scene { items: items(plot, [0.0; 2], size), ..Scene::new(size) }
}

/// The rectangle inside the frame of a plot that is part of a scene, px.
fn inside([x0, y0]: P, size: P) -> Inside {
    [x0 + 36.0, y0 + 6.0, x0 + size[0] - 8.0, y0 + size[1] - 18.0]
}

/// The same as a part of another scene: its upper left corner there, and its size.
pub fn items(plot: &Plot, [x0, y0]: P, size: P) -> Vec<Item> {
    let inside = inside([x0, y0], size);
    let (x, y) = (&plot.x, &plot.y);
    let across = x.ticks().into_iter().map(|tick| [(tick, y.from), (tick, y.to)]);
    let up = y.ticks().into_iter().map(|tick| [(x.from, tick), (x.to, tick)]);
    let grid = Stroke::line(Ink::Rule, 0.8);
    let mut drawn: Vec<Item> = across.chain(up).filter_map(|ends| line(plot, inside, &ends, grid)).collect();
    drawn.extend(lines(plot, inside, [0.9, 1.35], None, None));
    let [left, top, right, bottom] = inside;
    let label = |at: P, text: String, anchor: Anchor| {
        Item::Text(Text { size: 11.0, ink: Ink::Ink2, anchor, halo: false, ..Text::at(at, &text) })
    };
    let [across, up] = plot.axes();
    let part = |value: f64, axis: &Axis| (value - axis.from) / (axis.to - axis.from);
    let below = y0 + size[1] - 6.0;
    let along = across.ticks();
    let along = along
        .iter()
        .map(|v| label([left + part(*v, across) * (right - left), below], across.label(*v), Anchor::Middle));
    let beside = up.ticks();
    let beside = beside
        .iter()
        .map(|v| label([x0 + 32.0, bottom - part(*v, up) * (bottom - top) + 4.0], up.label(*v), Anchor::End));
    [Item::Clip { area: around(inside), items: drawn }].into_iter().chain(along).chain(beside).collect()
}

/// Writes a number of px from 0 up to its tenth. There are thousands in a frame, and the general way to write one is slow.
fn push_tenths(text: &mut String, px: f64) {
    let tenths = (px * 10.0).round() as u32;
    push_whole(text, tenths / 10);
    text.push('.');
    push_whole(text, tenths % 10);
}

fn push_whole(text: &mut String, number: u32) {
    if number > 9 {
        push_whole(text, number / 10);
    }
    text.push(char::from(b'0' + (number % 10) as u8));
}

/// Half of the last digit in which a sparkline is written, px; nobody sees a curve pass a point so near.
const HAIR: f64 = 0.05;

/// A sparkline of one wheel's reading over travel: SVG path data in a box of the given size, and where the state is now.
pub fn sparkline(solved: &Solved, reading: &Reading, [width, height]: [f64; 2]) -> Option<(String, [f64; 2])> {
    let (curve, now) = (solved.over_travel(), &solved.now);
    let (decimals, factor, _) = Units::default().shown(reading);
    // What would round to a constant is drawn as one.
    let constant = 5.0 * 10.0_f64.powi(-(decimals as i32)) / factor;
    // Every second state: two pixels apart are enough for forty.
    let value = |place: &Snapshot| (reading.value)(place).filter(|value| value.is_finite());
    let pieces =
        pieces(solved.places(curve, reading.subject()).step_by(2).map(|(x, place)| (x, value(&place))), constant);
    let (least, most) = range(&[&pieces], None)?;
    let (middle, span) = (f64::midpoint(least, most), f64::max(most - least, constant));
    let place = |x: f64, y: f64| {
        let down = (0.5 - (y - middle) / span) * (height - 4.0) + 2.0;
        ((x / curve.reach + 1.0) / 2.0 * width, down.clamp(0.0, height))
    };
    let placed = pieces.iter().map(|piece| piece.iter().map(|(x, y)| place(*x, *y)).collect::<Points>());
    let mut path = String::new();
    for (i, (x, y)) in placed.flat_map(|piece| needed(&piece, HAIR).into_iter().enumerate()) {
        path.push(if i == 0 { 'M' } else { 'L' });
        push_tenths(&mut path, x);
        path.push(' ');
        push_tenths(&mut path, y);
    }
    let now = place(now.travel.clamp(-curve.reach, curve.reach), value(&solved.now_and_at_rest()[0])?);
    Some((path, now.into()))
}
