//! A line that a reading is to follow, over what the reading does now and what an answer makes of it: a small plot in which a hand takes the line's
//! points. Values are in the unit the page shows.

use super::{Axis, Band, INTERVALS, Plot, Points, inside, items, line, place};
use crate::drawing::{Fill, Ink, Item, P, Scene, Step, Stroke};

/// The plot.
pub struct WantedLine {
    plot: Plot,
    points: Points,
}

/// Its size, px: as wide as a narrow window's pane.
const SIZE: P = [360.0, 170.0];

/// Above and below what it shows is as much room again as this part of it: for a hand to go there.
const ROOM: f64 = 0.25;

/// A point's radius, px.
const DOT: f64 = 4.0;

impl WantedLine {
    /// Of points and by how much they may be missed; `now` and `offered` are what the reading does. Travel or rack reaches so far each way; values that
    /// lie nearer together than `span` are not spread out further. The scale of `before` does not shrink.
    pub fn new(
        points: Points,
        off: f64,
        [now, offered]: [Points; 2],
        reach: f64,
        span: f64,
        before: Option<&WantedLine>,
    ) -> WantedLine {
        let shifted = |by: f64| points.iter().map(|(x, y)| (*x, y + by)).collect::<Points>();
        let lines = [shifted(off), shifted(-off)];
        let all = || lines.iter().chain([&now, &offered]).flatten();
        let least = all().map(|(_, y)| *y).fold(f64::INFINITY, f64::min);
        let most = all().map(|(_, y)| *y).fold(f64::NEG_INFINITY, f64::max);
        let (least, most) = if least <= most { (least, most) } else { (0.0, 0.0) };
        let room = ROOM * (most - least).max(span);
        let reach = points.iter().map(|(x, _)| x.abs()).fold(reach, f64::max);
        let some = |line: Points| if line.is_empty() { Vec::new() } else { vec![line] };
        let mut plot = Plot {
            x: Axis::either_way(reach),
            y: Axis::round(least - room, most + room, INTERVALS, span),
            line: some(now),
            faint: Vec::new(),
            compared: some(offered),
            band: Some(Band { lines, stale: false }),
            now: None,
            upright: false,
            marks: Vec::new(),
        };
        if let Some(before) = before {
            plot.steady(&before.plot.y);
        }
        WantedLine { plot, points }
    }

    /// It, drawn.
    pub fn scene(&self) -> Scene {
        let inside = inside([0.0; 2], SIZE);
        // Everything lies inside the frame: no clip, whose name other drawings on the page could have, too.
        let unclipped = |item| if let Item::Clip { items, .. } = item { items } else { vec![item] };
        let mut drawn: Vec<Item> = items(&self.plot, [0.0; 2], SIZE).into_iter().flat_map(unclipped).collect();
        drawn.extend(line(&self.plot, inside, &self.points, Stroke::line(Ink::Selected, 1.6)));
        drawn.extend(self.points.iter().map(|point| Item::Path {
            steps: vec![Step::Circle { centre: place(&self.plot, inside, *point).into(), radius: DOT }],
            fill: Some(Fill::solid(Ink::Paper)),
            stroke: Some(Stroke::line(Ink::Selected, 1.6)),
        }));
        Scene { items: drawn, ..Scene::new(SIZE) }
    }

    /// A place on it from one on the page, as parts of its width and height.
    pub fn at([across, down]: P) -> P {
        [across * SIZE[0], down * SIZE[1]]
    }

    /// How many px of the page one of its own is, where it is so wide.
    pub fn shown_as(width: f64) -> f64 {
        width / SIZE[0]
    }

    /// The point nearest to a place, if it is within reach, px.
    pub fn point(&self, at: P, reach: f64) -> Option<usize> {
        let away = |point: &(f64, f64)| {
            let (x, y) = place(&self.plot, inside([0.0; 2], SIZE), *point);
            f64::hypot(x - at[0], y - at[1])
        };
        let all = self.points.iter().map(away).enumerate().filter(|(_, away)| *away <= reach);
        all.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(at, _)| at)
    }

    /// What a place on it means, travel or rack and value; none beyond the frame.
    pub fn value(&self, [across, down]: P) -> [f64; 2] {
        let [left, top, right, bottom] = inside([0.0; 2], SIZE);
        let (x, y) = (&self.plot.x, &self.plot.y);
        let part = |from: f64, to: f64, at: f64| ((at - from) / (to - from)).clamp(0.0, 1.0);
        [x.from + part(left, right, across) * (x.to - x.from), y.from + part(bottom, top, down) * (y.to - y.from)]
    }
}
