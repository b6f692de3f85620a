//! The room that the wheel shown takes up where it is now, and what of it is drawn.

use super::App;
use crate::study::space::{Drawn, Now, Outlines, least};
use std::rc::Rc;

/// What of wheel space is drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Room {
    /// Nothing: its pane is not shown.
    #[default]
    Closed,
    /// The smallest gap, what meets, and where the tyre goes if that is wanted and known; true while that is another car's.
    Open(Option<(Rc<Outlines>, bool)>),
}

/// The readings of gaps.
const GAPS: [&str; 2] = ["wheel_gap_mm", "least_gap_mm"];

impl App {
    /// How near pieces are to each other now.
    pub fn space(&self) -> &Now {
        self.asked.space.get_or_init(|| Now::of(&self.study.good))
    }

    /// True while a lesson hides how near pieces are to each other.
    pub fn hides_gaps(&self) -> bool {
        GAPS.iter().any(|column| self.hides(column))
    }

    /// What meets here, where somebody has said what is in the way or how thick things are: demos' straight arms meet their wheel at full lock.
    pub(super) fn meeting(&self) -> Option<String> {
        let layout = &self.document.layout;
        let asked = !layout.boxes.is_empty() || layout.solid.is_some();
        let met = || self.space().gaps.first().filter(|gap| gap.value <= 0.0);
        (asked && !self.hides_gaps()).then(met)?.map(|_| least(&self.space().gaps, layout))
    }

    /// What of it is to be drawn.
    pub(super) fn drawn_space(&self) -> Option<Drawn<'_>> {
        match &self.room {
            Room::Closed if self.tells_of_room() && !self.hides_gaps() => {
                Some(Drawn { now: self.space(), outlines: None, old: false })
            }
            Room::Closed => None,
            Room::Open(_) if self.hides_gaps() => None,
            Room::Open(outlines) => {
                let old = outlines.as_ref().is_some_and(|(_, old)| *old);
                let outlines = outlines.as_ref().map(|(outlines, _)| &**outlines);
                Some(Drawn { now: self.space(), outlines, old })
            }
        }
    }
}
