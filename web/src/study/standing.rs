//! A layout where its car stands, wheels ahead: what variants are told apart by.

use kernel::{Axle, Layout, LeftOrRight, Reading, Snapshot, Subject, Whole};
use std::cell::OnceCell;
use std::rc::Rc;

/// An axle where its car stands.
pub struct Standing {
    axle: Rc<Axle>,
    /// Worked out when a reading of the whole axle is asked for.
    whole: OnceCell<Option<Whole>>,
}

impl Standing {
    /// A layout with one of its wheels looked at; `None` where it can't be built or can't stand there.
    pub fn of(layout: &Layout, side: LeftOrRight) -> Option<Standing> {
        let axle = Rc::new(Axle::new(layout).ok()?.looking_at(side));
        Some(Standing { axle, whole: OnceCell::new() })
    }

    /// The value of a reading. What is read against rest counts from the design's, so that changes show.
    pub fn value(&self, reading: &Reading) -> Option<f64> {
        match reading.subject() {
            Subject::Axle => {
                let whole = self.whole.get_or_init(|| Whole::standing(&self.axle).ok()).as_ref()?;
                (reading.value)(&Snapshot::both(whole))
            }
            _ => (reading.value)(&Snapshot::alone(&self.axle, self.axle.stands()).from_design()),
        }
    }
}
