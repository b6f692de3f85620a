//! Changes of what was typed beside the axle.

use crate::document::Document;
use crate::document::alignment::Alignment;

/// A change of what was typed beside the axle.
#[derive(Clone, Debug)]
pub enum Paper {
    /// The alignment sheet as it then is; or none.
    Alignment(Option<Box<Alignment>>),
}

impl Paper {
    /// The document after it.
    pub fn on(self, document: &Document) -> Document {
        let mut after = document.clone();
        match self {
            Paper::Alignment(alignment) => after.papers.alignment = alignment,
        }
        after
    }
}
