//! What is worked out beside a wheel's state when a reading asks for it, and once.

use crate::axle::Swept;
use crate::compliance::Elastic;
use std::cell::OnceCell;
use std::rc::Rc;

/// What has been asked about one wheel in one place that takes more poses than its own. Whoever keeps a state and looks at it often keeps this beside it.
#[derive(Clone, Debug, Default)]
pub struct Known {
    /// What a rig finds: it depends on the travel alone.
    pub(super) swept: Rc<OnceCell<Option<Swept>>>,
    /// What gives way.
    pub(super) elastic: OnceCell<Option<Elastic>>,
}

impl Known {
    /// Where it is known what a rig finds, or that it finds nothing.
    pub fn of_rig(swept: Option<Swept>) -> Known {
        Known { swept: Rc::new(OnceCell::from(swept)), ..Known::default() }
    }

    /// Of the same wheel at the same travel with another rack: a rig finds the same there.
    pub fn with_another_rack(&self) -> Known {
        Known { swept: self.swept.clone(), ..Known::default() }
    }
}
