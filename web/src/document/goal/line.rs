//! A line that a reading is to follow over travel or rack: a few points, straight between them.

use serde::{Deserialize, Serialize};

/// Points and how far the reading may be off them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// It runs over the rack; else over travel.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub rack: bool,
    /// Travel or rack, mm, and the value there, in this order.
    pub points: Vec<[f64; 2]>,
    /// By how much it may be missed.
    pub off: f64,
}

/// Between two points it is judged at places no further apart than this, mm: over so short a way a reading is as good as straight.
const APART: f64 = 20.0;

/// Points nearer to each other than this, mm, are one: no hand tells them apart.
const NEAR: f64 = 1.0;

impl Line {
    /// More points are no line drawn by hand.
    pub const MOST: usize = 20;

    /// A level line with a point at each end and one in the middle; the value and by how much it may be missed.
    pub fn level(rack: bool, reach: f64, [value, off]: [f64; 2]) -> Line {
        Line { rack, points: [-reach, 0.0, reach].map(|at| [at, value]).to_vec(), off }
    }

    /// Its value, beyond its ends that at the end; 0 without a point.
    pub fn at(&self, x: f64) -> f64 {
        let after = self.points.iter().position(|point| point[0] >= x);
        match (after, self.points.last()) {
            (Some(0), _) => self.points[0][1],
            (Some(i), _) => {
                let ([x0, y0], [x1, y1]) = (self.points[i - 1], self.points[i]);
                y0 + (y1 - y0) * (x - x0) / (x1 - x0)
            }
            (None, last) => last.map_or(0.0, |last| last[1]),
        }
    }

    /// Where it is judged, mm: at its points and between them.
    pub fn places(&self) -> Vec<f64> {
        let between = |ends: &[[f64; 2]]| {
            let [from, to] = [ends[0][0], ends[1][0]];
            let steps = ((to - from) / APART).ceil().clamp(1.0, 1e3) as usize;
            (0..steps).map(move |step| from + (to - from) * step as f64 / steps as f64)
        };
        self.points.windows(2).flat_map(between).chain(self.points.last().map(|last| last[0])).collect()
    }

    /// A point more; where there is one, that takes the value. Which it is; `None` where there are too many.
    pub fn add(&mut self, [x, y]: [f64; 2]) -> Option<usize> {
        if let Some(at) = self.points.iter().position(|point| (point[0] - x).abs() < NEAR) {
            self.points[at][1] = y;
            return Some(at);
        }
        let at = self.points.iter().filter(|point| point[0] < x).count();
        (self.points.len() < Line::MOST).then(|| {
            self.points.insert(at, [x, y]);
            at
        })
    }

    /// A point more on the line, where two are furthest apart.
    pub fn fill(&mut self) {
        let gap = |i: &usize| self.points[i + 1][0] - self.points[*i][0];
        let widest = (0..self.points.len().saturating_sub(1)).max_by(|a, b| gap(a).total_cmp(&gap(b)));
        if let Some(x) = widest.map(|i| (self.points[i][0] + gap(&i) / 2.0).round()) {
            self.add([x, self.at(x)]);
        }
    }

    /// Drags a point, never past its neighbours.
    pub fn drag(&mut self, at: usize, [x, y]: [f64; 2]) {
        let least = at.checked_sub(1).and_then(|i| self.points.get(i)).map_or(f64::NEG_INFINITY, |p| p[0] + NEAR);
        let most = self.points.get(at + 1).map_or(f64::INFINITY, |p| p[0] - NEAR);
        if let Some(point) = self.points.get_mut(at).filter(|_| least <= most) {
            *point = [x.clamp(least, most), y];
        }
    }

    /// True for at least two points in order, and numbers all of them.
    pub fn is_sound(&self) -> bool {
        let numbers = self.points.iter().flatten().all(|number| number.is_finite());
        numbers
            && (2..=Line::MOST).contains(&self.points.len())
            && self.points.windows(2).all(|two| two[0][0] < two[1][0])
    }
}
