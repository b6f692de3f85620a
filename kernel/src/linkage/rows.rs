//! The guiding rows: what each belongs to, between which joints it runs, and its equation. Where the kinds of guides become equations.

use super::Constraint;
use crate::frame::Vec3;
use crate::layout::{Guide, Member, Part, PointId, Rod};

/// One guiding row: the member and the part it belongs to, and its equation.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The member: a wishbone has two.
    pub member: Member,
    /// The part: a wishbone is one.
    pub part: Part,
    /// Its joints: on the body, on the carrier.
    pub joints: [PointId; 2],
    /// Its equation.
    pub constraint: Constraint,
}

impl Row {
    /// A rod's joints: on the body, and on the carrier from the wheel centre, mm; `None` for a strut.
    pub(super) fn ends(&self) -> Option<[Vec3; 2]> {
        match self.constraint {
            Constraint::Rod { inner, outer, .. } => Some([inner, outer]),
            Constraint::Slide { .. } => None,
        }
    }
}

/// A guide's front or rear member: what it is called as an arm and as a wishbone's leg, and its joints: on the body, an arm's on
/// the carrier, the wishbone's on the carrier.
pub(super) struct Names {
    member: Member,
    arm: Part,
    wishbone: Part,
    joints: [PointId; 3],
}

pub(super) const LOWER: [Names; 2] = [
    Names {
        member: Member::LowerFront,
        arm: Part::LowerFrontArm,
        wishbone: Part::LowerWishbone,
        joints: [PointId::LowerFrontInner, PointId::LowerFrontOuter, PointId::LowerOuter],
    },
    Names {
        member: Member::LowerRear,
        arm: Part::LowerRearArm,
        wishbone: Part::LowerWishbone,
        joints: [PointId::LowerRearInner, PointId::LowerRearOuter, PointId::LowerOuter],
    },
];
pub(super) const UPPER: [Names; 2] = [
    Names {
        member: Member::UpperFront,
        arm: Part::UpperFrontArm,
        wishbone: Part::UpperWishbone,
        joints: [PointId::UpperFrontInner, PointId::UpperFrontOuter, PointId::UpperOuter],
    },
    Names {
        member: Member::UpperRear,
        arm: Part::UpperRearArm,
        wishbone: Part::UpperWishbone,
        joints: [PointId::UpperRearInner, PointId::UpperRearOuter, PointId::UpperOuter],
    },
];

/// The two rows of a guide. A wishbone is two rods that share their outer joint; a strut is a line kept on its mount
/// across two directions.
pub(super) fn guide_rows(guide: &Guide, centre: Vec3, names: [Names; 2]) -> [Row; 2] {
    let rod = |names: &Names, rod: Rod, shared: bool| {
        let [inner, arm, wishbone] = names.joints;
        Row {
            member: names.member,
            part: if shared { names.wishbone } else { names.arm },
            joints: [inner, if shared { wishbone } else { arm }],
            constraint: Constraint::rod(&rod, centre, None),
        }
    };
    let [front, rear] = &names;
    match guide {
        Guide::Arms { front: a, rear: b } => [rod(front, *a, false), rod(rear, *b, false)],
        Guide::Wishbone { front: a, rear: b, outer } => {
            [rod(front, Rod { inner: *a, outer: *outer }, true), rod(rear, Rod { inner: *b, outer: *outer }, true)]
        }
        Guide::Strut { top, foot } => Constraint::strut(*top, *foot, centre).map(|constraint| Row {
            member: Member::Strut,
            part: Part::Strut,
            joints: [PointId::StrutTop, PointId::StrutFoot],
            constraint,
        }),
    }
}
