//! What is worked out beside a wheel's state when a reading asks for it, and once.

use crate::axle::{Axle, Swept};
use crate::compliance::Elastic;
use crate::layout::LeftOrRight;
use crate::space::{Piece, Pieces};
use crate::state::State;
use std::cell::OnceCell;
use std::rc::Rc;

/// What has been asked about one wheel in one place that takes more poses than its own. Whoever keeps a state and looks at it often keeps this beside it.
#[derive(Clone, Debug, Default)]
pub struct Known {
    /// What a rig finds: it depends on the travel alone.
    pub(super) swept: Rc<OnceCell<Option<Swept>>>,
    /// What gives way.
    pub(super) elastic: OnceCell<Option<Elastic>>,
    /// How near pieces are to each other.
    pub(super) gaps: OnceCell<Option<Gaps>>,
}

/// The least distances, mm; 0 where pieces meet, `None` where there is nothing to meet.
#[derive(Clone, Copy, Debug)]
pub struct Gaps {
    /// Of the wheel from anything.
    pub wheel: Option<f64>,
    /// Between any two that are not connected.
    pub any: Option<f64>,
}

impl Gaps {
    /// Those of a wheel of an axle.
    pub(super) fn of(axle: &Axle, side: LeftOrRight, wheel: &State) -> Gaps {
        let gaps = Pieces::of(axle, side).apart(&wheel.position);
        let least = |values: &mut dyn Iterator<Item = f64>| values.reduce(f64::min).map(|least| least.max(0.0));
        let of_wheel = gaps.iter().filter(|gap| gap.between.contains(&Piece::Wheel));
        Gaps { wheel: least(&mut of_wheel.map(|gap| gap.value)), any: least(&mut gaps.iter().map(|gap| gap.value)) }
    }
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
