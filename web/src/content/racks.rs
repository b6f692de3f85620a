//! Prepared axles: a rack on the body over a soft subframe beside one on a bolted subframe, ahead of the wheel centre and behind it. What the notes say
//! of degrees is proven by a test.

use super::demos;
use crate::document::{Case, Document};
use kernel::{Layout, LoadCase, Mount, Subframe, SubframeMount};

/// Mean steer of both wheels under a side force.
pub const STEER: &str = "axle_steer_side_force_deg_per_kn";

/// Readings shown as curves.
const PINNED: [&str; 4] =
    [STEER, "toe_side_force_deg_per_kn", "camber_side_force_deg_per_kn", "toe_aligning_moment_deg_per_100_nm"];

/// A rack, and what still hands feel of it.
pub struct Prepared {
    /// What its link is called.
    pub name: &'static str,
    /// The demo that it is made of: one with the rack ahead, one with it behind.
    demo: usize,
    mount: Mount,
    note: &'static str,
}

/// All of them, in pairs.
pub const PREPARED: [Prepared; 4] = [
    Prepared {
        name: "rack ahead, on the body",
        demo: 3,
        mount: Mount::Body,
        note: "The bend shifts the soft subframe with its arms outward, the rack stays: 0.24° of steer for each kN of side force, out of the bend. It gives way, felt as vague.",
    },
    Prepared {
        name: "rack ahead, on a bolted subframe",
        demo: 3,
        mount: Mount::Subframe,
        note: "The rack goes along with the arms, and the subframe hardly moves: 0.12° for each kN is left, half of it.",
    },
    Prepared {
        name: "rack behind, on the body",
        demo: 4,
        mount: Mount::Body,
        note: "The same shift, the rack behind the wheel centre: 0.07° for each kN, into the bend. It turns in, felt as nervous.",
    },
    Prepared {
        name: "rack behind, on a bolted subframe",
        demo: 4,
        mount: Mount::Subframe,
        note: "The rack goes along with the arms: 0.01° for each kN is left.",
    },
];

impl Prepared {
    /// The axle, with usual bushes; `None` only if its demo is none.
    pub fn layout(&self) -> Option<Layout> {
        let mut layout = demos::layout(self.demo)?;
        layout.stiffness = layout.usual_stiffness();
        let soft = self.mount == Mount::Body;
        let mounts = if soft { SubframeMount::RUBBER } else { SubframeMount::BOLTED };
        layout.subframe = Some(Subframe::usual(&layout, mounts));
        layout.rack.as_mut()?.mount = self.mount;
        layout.name = format!("Harbour shuttle, {}", self.name);
        layout.note = self.note.into();
        Some(layout)
    }

    /// The document of its link: the outer wheel in a bend, the other of its pair laid over.
    pub fn document(&self) -> Option<Document> {
        let other = PREPARED.iter().find(|other| other.demo == self.demo && other.mount != self.mount)?;
        let mut document =
            Document { pinned: PINNED.to_vec(), compared: other.layout(), ..Document::of(self.layout()?) };
        document.loads.case = LoadCase::all().iter().position(|case| case.key == "outer").map_or(Case::None, Case::Of);
        Some(document)
    }
}
