//! What gives way where the guides are held, and along members. Optional; a joint without an entry is rigid.

use super::{Guide, Layout, Member, PointId};
use crate::frame::Vec3;
use serde::Serialize;

/// Where the guides are held: a joint on the body or the subframe, or the rack.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum Anchor {
    /// Inner joint of the lower front arm, or the lower wishbone's front one.
    #[serde(rename = "lower.front")]
    LowerFront,
    /// Inner joint of the lower rear arm, or the lower wishbone's rear one.
    #[serde(rename = "lower.rear")]
    LowerRear,
    /// Inner joint of the upper front arm, or the upper wishbone's front one.
    #[serde(rename = "upper.front")]
    UpperFront,
    /// Inner joint of the upper rear arm, or the upper wishbone's rear one.
    #[serde(rename = "upper.rear")]
    UpperRear,
    /// The strut's top mount, on which a spring without a `top` of its own stands.
    #[serde(rename = "strut.top")]
    StrutTop,
    /// Inner joint of the track rod.
    #[serde(rename = "track_rod")]
    TrackRod,
    /// The rack's bar in its housing: one for both wheels.
    #[serde(rename = "rack")]
    Rack,
}

impl Anchor {
    /// Every anchor with its name in files.
    pub const ALL: [(Anchor, &'static str); 7] = [
        (Anchor::LowerFront, "lower.front"),
        (Anchor::LowerRear, "lower.rear"),
        (Anchor::UpperFront, "upper.front"),
        (Anchor::UpperRear, "upper.rear"),
        (Anchor::StrutTop, "strut.top"),
        (Anchor::TrackRod, "track_rod"),
        (Anchor::Rack, "rack"),
    ];

    /// Its name in files.
    pub fn name(self) -> &'static str {
        Self::ALL.iter().find(|(anchor, _)| *anchor == self).map_or("", |(_, name)| name)
    }

    /// The guide whose inner joint it is; `None` for the strut's top mount, track rod and rack.
    pub(crate) fn guide(self, layout: &Layout) -> Option<&Guide> {
        match self {
            Anchor::LowerFront | Anchor::LowerRear => Some(&layout.lower),
            Anchor::UpperFront | Anchor::UpperRear => Some(&layout.upper),
            Anchor::StrutTop | Anchor::TrackRod | Anchor::Rack => None,
        }
    }

    /// The anchors that a layout has, in the order of files.
    pub fn all(layout: &Layout) -> Vec<Anchor> {
        Self::ALL.into_iter().map(|(anchor, _)| anchor).filter(|anchor| anchor.is_in(layout)).collect()
    }

    /// The joint that is held there; the rack is held along its whole length, and has none.
    pub fn joint(self) -> Option<PointId> {
        match self {
            Anchor::LowerFront => Some(PointId::LowerFrontInner),
            Anchor::LowerRear => Some(PointId::LowerRearInner),
            Anchor::UpperFront => Some(PointId::UpperFrontInner),
            Anchor::UpperRear => Some(PointId::UpperRearInner),
            Anchor::StrutTop => Some(PointId::StrutTop),
            Anchor::TrackRod => Some(PointId::TrackRodInner),
            Anchor::Rack => None,
        }
    }

    /// The member whose inner joint is held there; `None` of the rack.
    pub fn member(self) -> Option<Member> {
        match self {
            Anchor::LowerFront => Some(Member::LowerFront),
            Anchor::LowerRear => Some(Member::LowerRear),
            Anchor::UpperFront => Some(Member::UpperFront),
            Anchor::UpperRear => Some(Member::UpperRear),
            Anchor::StrutTop => Some(Member::Strut),
            Anchor::TrackRod => Some(Member::TrackRod),
            Anchor::Rack => None,
        }
    }

    /// Where a member's inner joint is held, on an axle whose rack is not asked about.
    pub fn of(member: Member) -> Anchor {
        match member {
            Member::LowerFront => Anchor::LowerFront,
            Member::LowerRear => Anchor::LowerRear,
            Member::UpperFront => Anchor::UpperFront,
            Member::UpperRear => Anchor::UpperRear,
            Member::Strut => Anchor::StrutTop,
            Member::TrackRod => Anchor::TrackRod,
        }
    }

    /// True if a layout can have a bush there: not at the rack, nor where a steered track rod has its ball joint.
    pub fn has_bush(self, layout: &Layout) -> bool {
        match self {
            Anchor::Rack => false,
            Anchor::TrackRod => layout.rack.is_none(),
            _ => self.is_in(layout),
        }
    }

    /// True if a layout can have a stiffness `along` there: of an arm, a track rod, the rack.
    pub fn has_member(self, layout: &Layout) -> bool {
        match self.guide(layout) {
            Some(guide) => matches!(guide, Guide::Arms { .. }),
            None => self != Anchor::StrutTop && self.is_in(layout),
        }
    }

    /// True if a bush there turns as the wheel travels: at the inner joint of an arm, of a wishbone, of a track rod on the body.
    pub fn turns(self, layout: &Layout) -> bool {
        self.has_bush(layout) && self != Anchor::StrutTop
    }

    /// True if a layout has it.
    pub(crate) fn is_in(self, layout: &Layout) -> bool {
        match self {
            Anchor::StrutTop => matches!(layout.upper, Guide::Strut { .. }),
            Anchor::TrackRod => true,
            Anchor::Rack => layout.rack.is_some(),
            _ => self.guide(layout).is_some_and(|guide| !matches!(guide, Guide::Strut { .. })),
        }
    }
}

/// What gives way at an anchor: a bush (`radial` with `axial`), the member it holds (`along`), or both, one behind the other.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Bush {
    /// Across its axis, N/mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub radial: Option<f64>,
    /// Along its axis, N/mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub axial: Option<f64>,
    /// Direction of its axis at rest in the car's axes, of any length; default a wishbone's body axis, the strut's line, else x. It is fixed to
    /// the body's side of the bush; the right bush's is the mirror image.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub axis: Option<Vec3>,
    /// Turned about its axis, N·m/°; it takes no part in compliance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub torsion: Option<f64>,
    /// Of an arm or a track rod with its ball joints, along its line; of the rack against its housing, with all that is between it and the held
    /// steering wheel. N/mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub along: Option<f64>,
}
