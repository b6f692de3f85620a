//! The subframe: one rigid body for both sides, on mounts. Optional; without one, what it would carry is held by the body.

use super::{Anchor, Layout, Mount};
use crate::frame::Vec3;
use serde::Serialize;

/// A subframe on its left mounts and their mirror images.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Subframe {
    /// Its left mounts. Each has a mirror image on the right; so one on the centre plane counts twice.
    pub mounts: Vec<SubframeMount>,
    /// What it carries, on both sides; default both inner joints of the lower guide, and the rack if its `mount` is the subframe. A list given
    /// here is all that it carries, whatever the rack says.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub carries: Option<Vec<Anchor>>,
}

/// A mount between subframe and body.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SubframeMount {
    /// Where it is at rest, mm.
    pub at: Vec3,
    /// Along x, y and z of the car, N/mm.
    pub stiffness: Vec3,
}

impl Layout {
    /// True if the subframe carries an anchor; false for all of them without one.
    pub fn subframe_carries(&self, anchor: Anchor) -> bool {
        self.subframe.is_some() && self.would_carry(anchor)
    }

    /// The same where a layout that says nothing of a subframe is taken to have one that carries what it does by default.
    pub(crate) fn would_carry(&self, anchor: Anchor) -> bool {
        let named = self.subframe.as_ref().and_then(|subframe| subframe.carries.as_ref());
        match (named, anchor) {
            (Some(named), _) => named.contains(&anchor),
            (None, Anchor::LowerFront | Anchor::LowerRear) => true,
            (None, Anchor::Rack) => self.rack.as_ref().is_some_and(|rack| rack.mount == Mount::Subframe),
            (None, _) => false,
        }
    }
}
