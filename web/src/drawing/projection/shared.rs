//! One sheet on which several axles are drawn, each by itself: one scale, and the centre plane, the road and the wheel centre's place at the same
//! place on paper, so that what differs between two drawings differs between the axles.

use super::super::{Picture, Turn};
use super::{Extent, P, Sheet, View, pictorial};

impl Sheet {
    /// The sheet of one view on which each of the axles fits, at rest and now; the pictorial view is seen from there.
    pub fn shared(size: P, view: View, turn: Turn, pictures: &[Picture]) -> Sheet {
        if view == View::Pictorial {
            let points = pictures.iter().flat_map(pictorial::points).collect();
            return Sheet::pictorial_of(size, turn, true, points);
        }
        let mut extents = pictures.iter().map(Extent::of);
        let Some(mut extent) = extents.next() else { return Sheet::empty() };
        for other in extents {
            extent.min = extent.min.inf(&other.min);
            extent.max = extent.max.sup(&other.max);
        }
        let span = extent.max - extent.min;
        // Enlarged details have a scale of their own, which would differ from axle to axle.
        Sheet { details: None, ..Sheet::one(size, view, &extent, span) }
    }
}
