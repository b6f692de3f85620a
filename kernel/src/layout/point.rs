//! The points of a layout: their names and where each is kept.

use super::{AntiRollBar, Guide, HalfShaft, Layout, Rocker};
use crate::frame::Vec3;

/// A point of a layout: a joint, an end of the spring, or the wheel centre.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum PointId {
    /// Lower guide, front: the wishbone's body joint or the arm's inner joint.
    LowerFrontInner,
    /// Outer joint of the lower front arm.
    LowerFrontOuter,
    /// Lower guide, rear: the wishbone's body joint or the arm's inner joint.
    LowerRearInner,
    /// Outer joint of the lower rear arm.
    LowerRearOuter,
    /// Ball joint of the lower wishbone.
    LowerOuter,
    /// Upper guide, front: the wishbone's body joint or the arm's inner joint.
    UpperFrontInner,
    /// Outer joint of the upper front arm.
    UpperFrontOuter,
    /// Upper guide, rear: the wishbone's body joint or the arm's inner joint.
    UpperRearInner,
    /// Outer joint of the upper rear arm.
    UpperRearOuter,
    /// Ball joint of the upper wishbone.
    UpperOuter,
    /// The strut's top mount.
    StrutTop,
    /// The strut's foot.
    StrutFoot,
    /// The track rod's joint on the rack, or on the body.
    TrackRodInner,
    /// The track rod's joint on the carrier.
    TrackRodOuter,
    /// The spring's upper end.
    SpringTop,
    /// The spring's foot.
    SpringFoot,
    /// The wheel centre.
    WheelCentre,
    /// The half-shaft's inner joint.
    ShaftInner,
    /// The half-shaft's outer joint.
    ShaftOuter,
    /// The anti-roll bar's bearing.
    BarPivot,
    /// The end of the anti-roll bar's lever.
    BarLever,
    /// The drop link's end on the part it rides on.
    BarLink,
    /// The rocker's pivot.
    RockerPivot,
    /// The rod's joint on the rocker.
    RockerRod,
    /// The spring's joint on the rocker.
    RockerSpring,
}

impl PointId {
    /// Every point with the name the trade would give it and its code in links.
    pub const ALL: [(PointId, &'static str, &'static str); 25] = [
        (PointId::LowerFrontInner, "lower front, inner joint", "lfi"),
        (PointId::LowerFrontOuter, "lower front, outer joint", "lfo"),
        (PointId::LowerRearInner, "lower rear, inner joint", "lri"),
        (PointId::LowerRearOuter, "lower rear, outer joint", "lro"),
        (PointId::LowerOuter, "lower ball joint", "lo"),
        (PointId::UpperFrontInner, "upper front, inner joint", "ufi"),
        (PointId::UpperFrontOuter, "upper front, outer joint", "ufo"),
        (PointId::UpperRearInner, "upper rear, inner joint", "uri"),
        (PointId::UpperRearOuter, "upper rear, outer joint", "uro"),
        (PointId::UpperOuter, "upper ball joint", "uo"),
        (PointId::StrutTop, "strut top mount", "st"),
        (PointId::StrutFoot, "strut foot", "sf"),
        (PointId::TrackRodInner, "track rod, inner joint", "tri"),
        (PointId::TrackRodOuter, "track rod, outer joint", "tro"),
        (PointId::SpringTop, "spring top", "spt"),
        (PointId::SpringFoot, "spring foot", "spf"),
        (PointId::WheelCentre, "wheel centre", "wc"),
        (PointId::ShaftInner, "half-shaft, inner joint", "hsi"),
        (PointId::ShaftOuter, "half-shaft, outer joint", "hso"),
        (PointId::BarPivot, "anti-roll bar, bearing", "abp"),
        (PointId::BarLever, "anti-roll bar, lever end", "abl"),
        (PointId::BarLink, "drop link, lower joint", "abd"),
        (PointId::RockerPivot, "rocker, pivot", "rkp"),
        (PointId::RockerRod, "rocker, rod joint", "rkr"),
        (PointId::RockerSpring, "rocker, spring joint", "rks"),
    ];

    /// The name the trade would give it.
    pub fn name(self) -> &'static str {
        Self::ALL.iter().find(|(id, ..)| *id == self).map_or("", |(_, name, _)| name)
    }

    /// Its code in links.
    pub fn code(self) -> &'static str {
        Self::ALL.iter().find(|(id, ..)| *id == self).map_or("", |(.., code)| code)
    }

    /// The point of a code.
    pub fn coded(code: &str) -> Option<PointId> {
        Self::ALL.iter().find(|(.., known)| *known == code).map(|(id, ..)| *id)
    }

    /// True for a joint that moves with the carrier.
    pub fn on_carrier(self) -> bool {
        use PointId::*;
        matches!(
            self,
            LowerFrontOuter
                | LowerRearOuter
                | LowerOuter
                | UpperFrontOuter
                | UpperRearOuter
                | UpperOuter
                | StrutFoot
                | TrackRodOuter
                | WheelCentre
                | ShaftOuter
        )
    }
}

/// Where each point is kept: one table for reading and (with `mut`) for writing.
macro_rules! place {
    ($layout:ident, $id:ident $(, $mut:tt)?) => {{
        use Guide::{Arms, Strut, Wishbone};
        use PointId::*;
        match ($id, &$($mut)? $layout.lower, &$($mut)? $layout.upper) {
            (LowerFrontInner, Wishbone { front: p, .. }, _) | (UpperFrontInner, _, Wishbone { front: p, .. }) => Some(p),
            (LowerRearInner, Wishbone { rear: p, .. }, _) | (UpperRearInner, _, Wishbone { rear: p, .. }) => Some(p),
            (LowerOuter, Wishbone { outer: p, .. }, _) | (UpperOuter, _, Wishbone { outer: p, .. }) => Some(p),
            (LowerFrontInner, Arms { front, .. }, _) | (UpperFrontInner, _, Arms { front, .. }) => Some(&$($mut)? front.inner),
            (LowerFrontOuter, Arms { front, .. }, _) | (UpperFrontOuter, _, Arms { front, .. }) => Some(&$($mut)? front.outer),
            (LowerRearInner, Arms { rear, .. }, _) | (UpperRearInner, _, Arms { rear, .. }) => Some(&$($mut)? rear.inner),
            (LowerRearOuter, Arms { rear, .. }, _) | (UpperRearOuter, _, Arms { rear, .. }) => Some(&$($mut)? rear.outer),
            (StrutTop, _, Strut { top, .. }) => Some(top),
            (StrutFoot, _, Strut { foot, .. }) => Some(foot),
            (TrackRodInner, ..) => Some(&$($mut)? $layout.track_rod.inner),
            (TrackRodOuter, ..) => Some(&$($mut)? $layout.track_rod.outer),
            (SpringTop, ..) => (&$($mut)? $layout.spring.top).into(),
            (SpringFoot, ..) => (&$($mut)? $layout.spring.foot).into(),
            (RockerPivot, ..) => Option::from(&$($mut)? $layout.spring.rocker).map(|r: &$($mut)? Rocker| &$($mut)? r.pivot),
            (RockerRod, ..) => Option::from(&$($mut)? $layout.spring.rocker).map(|r: &$($mut)? Rocker| &$($mut)? r.rod),
            (RockerSpring, ..) => Option::from(&$($mut)? $layout.spring.rocker).map(|r: &$($mut)? Rocker| &$($mut)? r.spring),
            (BarPivot, ..) => Option::from(&$($mut)? $layout.anti_roll_bar).map(|b: &$($mut)? AntiRollBar| &$($mut)? b.pivot),
            (BarLever, ..) => Option::from(&$($mut)? $layout.anti_roll_bar).map(|b: &$($mut)? AntiRollBar| &$($mut)? b.lever),
            (BarLink, ..) => Option::from(&$($mut)? $layout.anti_roll_bar).map(|b: &$($mut)? AntiRollBar| &$($mut)? b.link),
            (ShaftInner, ..) => Option::from(&$($mut)? $layout.half_shaft).map(|s: &$($mut)? HalfShaft| &$($mut)? s.inner),
            (ShaftOuter, ..) => Option::from(&$($mut)? $layout.half_shaft).map(|s: &$($mut)? HalfShaft| &$($mut)? s.outer),
            (WheelCentre, ..) => Some(&$($mut)? $layout.wheel.centre),
            _ => None,
        }
    }};
}

impl Layout {
    /// The points this layout has, in the order of [`PointId::ALL`].
    pub fn points(&self) -> impl Iterator<Item = (PointId, Vec3)> + '_ {
        PointId::ALL.iter().filter_map(|&(id, ..)| Some((id, self.point(id)?)))
    }

    /// Where a point is at rest, mm; `None` if this layout does not have it.
    pub fn point(&self, id: PointId) -> Option<Vec3> {
        place!(self, id).copied()
    }

    /// The same, to be changed.
    pub fn point_mut(&mut self, id: PointId) -> Option<&mut Vec3> {
        place!(self, id, mut)
    }
}
