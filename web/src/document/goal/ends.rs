//! What of the box in which a joint may move can be held and dragged.

use super::Goal;
use kernel::{LIMIT, PointId, Vec3};

/// Which end of a joint's box is meant along x, y and z: 0 the least, 1 the greatest; `None` where neither is.
pub type Ends = [Option<usize>; 3];

impl Goal {
    /// The box that a joint may move in, an axis each; `None` along which it may not.
    pub fn box_of(&self, point: PointId) -> [Option<[f64; 2]>; 3] {
        let range = |axis| self.free.iter().find(|freed| (freed.point, freed.axis) == (point, axis));
        [0, 1, 2].map(|axis| range(axis).map(|freed| freed.range))
    }

    /// What of a joint's box can be held in a view of two axes: its corners, and the middles of its edges.
    pub fn ends_in(&self, point: PointId, axes: [usize; 2]) -> Vec<Ends> {
        let ranges = self.box_of(point);
        let along = |axis: usize| if ranges[axis].is_some() { vec![None, Some(0), Some(1)] } else { vec![None] };
        let [a, b] = axes;
        let pairs = along(a).into_iter().flat_map(|end| along(b).into_iter().map(move |other| (end, other)));
        let held = |(end, other): (Option<usize>, Option<usize>)| {
            let mut ends = Ends::default();
            (ends[a], ends[b]) = (end, other);
            ends
        };
        pairs.map(held).filter(|ends| *ends != Ends::default()).collect()
    }

    /// Where ends of a joint's box are, mm: along an axis of which no end is meant, in its middle, or where the joint is.
    pub fn end_of_box(&self, point: PointId, at: Vec3, ends: Ends) -> Vec3 {
        let ranges = self.box_of(point);
        Vec3::from_fn(|axis, _| match (ranges[axis], ends[axis]) {
            (Some(range), Some(end)) => range[end.min(1)],
            (Some([least, most]), None) => f64::midpoint(least, most),
            (None, _) => at[axis],
        })
    }

    /// Drags ends of a joint's box to a place, mm: to hundredths, and none past the other end.
    pub fn drag_box(&mut self, point: PointId, ends: Ends, to: Vec3) {
        for freed in self.free.iter_mut().filter(|freed| freed.point == point && freed.axis < 3) {
            let Some(end) = ends[freed.axis].filter(|_| to[freed.axis].is_finite()) else { continue };
            let mm = ((to[freed.axis] * 100.0).round() / 100.0).clamp(-LIMIT, LIMIT);
            freed.range[end.min(1)] = if end == 0 { mm.min(freed.range[1]) } else { mm.max(freed.range[0]) };
        }
    }
}
