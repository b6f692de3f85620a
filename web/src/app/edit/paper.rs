//! Changes of what was typed beside the axle.

use crate::document::Document;
use crate::document::alignment::Alignment;
use crate::document::fitting::Fitting;
use crate::document::goal::Goal;

/// A change of what was typed beside the axle.
#[derive(Clone, Debug)]
pub enum Paper {
    /// The alignment sheet as it then is; an empty one is none.
    Alignment(Box<Alignment>),
    /// What is searched for as it then is; an empty goal is none.
    Goal(Box<Goal>),
    /// The readings that joints are to be fitted to, as they then are; an empty table is none.
    Fitting(Box<Fitting>),
}

impl Paper {
    /// The document after it.
    pub fn on(self, document: &Document) -> Document {
        let mut after = document.clone();
        match self {
            Paper::Alignment(alignment) => {
                after.papers.alignment = Some(alignment).filter(|alignment| **alignment != Alignment::default());
            }
            Paper::Goal(goal) => after.papers.goal = Some(goal).filter(|goal| **goal != Goal::default()),
            Paper::Fitting(fitting) => {
                after.papers.fitting = Some(fitting).filter(|fitting| **fitting != Fitting::default());
            }
        }
        after
    }
}
