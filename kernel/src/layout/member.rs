//! The members and parts that guide the wheel: what they are called by.

use super::SpringOn;

/// What a guiding row belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Member {
    /// Front arm, or front leg of the wishbone, of the lower guide.
    LowerFront,
    /// Rear arm or leg of the lower guide.
    LowerRear,
    /// Front arm or leg of the upper guide.
    UpperFront,
    /// Rear arm or leg of the upper guide.
    UpperRear,
    /// The strut.
    Strut,
    /// The track rod.
    TrackRod,
}

/// A part that guides the wheel: an arm, or a whole wishbone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// Front arm of the lower guide.
    LowerFrontArm,
    /// Rear arm of the lower guide.
    LowerRearArm,
    /// The lower wishbone.
    LowerWishbone,
    /// Front arm of the upper guide.
    UpperFrontArm,
    /// Rear arm of the upper guide.
    UpperRearArm,
    /// The upper wishbone.
    UpperWishbone,
    /// The strut.
    Strut,
    /// The track rod.
    TrackRod,
}

impl Part {
    /// The part that something on it rides with; `None` for what rides on the carrier.
    pub(crate) fn under(on: SpringOn) -> Option<Part> {
        match on {
            SpringOn::Strut | SpringOn::Carrier => None,
            SpringOn::Lower => Some(Part::LowerWishbone),
            SpringOn::LowerFront => Some(Part::LowerFrontArm),
            SpringOn::LowerRear => Some(Part::LowerRearArm),
            SpringOn::Upper => Some(Part::UpperWishbone),
            SpringOn::UpperFront => Some(Part::UpperFrontArm),
            SpringOn::UpperRear => Some(Part::UpperRearArm),
        }
    }

    /// What sentences call it.
    pub fn name(self) -> &'static str {
        match self {
            Part::LowerFrontArm => "lower front arm",
            Part::LowerRearArm => "lower rear arm",
            Part::LowerWishbone => "lower wishbone",
            Part::UpperFrontArm => "upper front arm",
            Part::UpperRearArm => "upper rear arm",
            Part::UpperWishbone => "upper wishbone",
            Part::Strut => "strut",
            Part::TrackRod => "track rod",
        }
    }
}
