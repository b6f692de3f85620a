//! A document as a slide, and the slides that it shows.

use super::Document;
use super::loads::Case;
use super::story::Shot;
use kernel::PointId;

impl Shot {
    /// What a document shows, with a caption.
    pub fn of(document: &Document, points_at: Option<PointId>, caption: String) -> Shot {
        let Document { layout, compared, travel, rack, whole, pinned, .. } = document.clone();
        // One wheel alone does not roll.
        let roll = if whole { document.roll } else { 0.0 };
        let case = document.loads.case;
        Shot { over: compared, travel, rack, whole, roll, pinned, points_at, case, ..Shot::at_rest(layout, caption) }
    }
}

impl Document {
    /// The shots of its own show. What none of them says is as the document has it: the axle laid over, and the load.
    pub fn show(&self) -> Vec<Shot> {
        let mut shots = self.story.clone();
        if shots.iter().all(|shot| shot.over.is_none()) {
            shots.iter_mut().for_each(|shot| shot.over.clone_from(&self.compared));
        }
        if shots.iter().all(|shot| shot.case == Case::None) {
            shots.iter_mut().for_each(|shot| shot.case = self.loads.case);
        }
        shots
    }
}
