//! Where a point stands in the layout’s file, and which points are joints of the guides.

use super::{Guide, Layout, PointId};

impl PointId {
    /// True for a joint of a member that guides the wheel, which can sit elsewhere on its part; a strut's foot only names a point of its line.
    pub fn is_joint(self) -> bool {
        use PointId::*;
        let body = [LowerFrontInner, LowerRearInner, UpperFrontInner, UpperRearInner, StrutTop, TrackRodInner];
        body.contains(&self) || self.on_carrier() && !matches!(self, StrutFoot | WheelCentre | ShaftOuter)
    }

    /// Where a point stands in the layout's file.
    pub fn path(self, layout: &Layout) -> &'static str {
        use PointId::*;
        let bone = |guide: &Guide, bone, arm| if matches!(guide, Guide::Wishbone { .. }) { bone } else { arm };
        match self {
            LowerFrontInner => bone(&layout.lower, "lower.front", "lower.front.inner"),
            LowerRearInner => bone(&layout.lower, "lower.rear", "lower.rear.inner"),
            UpperFrontInner => bone(&layout.upper, "upper.front", "upper.front.inner"),
            UpperRearInner => bone(&layout.upper, "upper.rear", "upper.rear.inner"),
            LowerFrontOuter => "lower.front.outer",
            LowerRearOuter => "lower.rear.outer",
            LowerOuter => "lower.outer",
            UpperFrontOuter => "upper.front.outer",
            UpperRearOuter => "upper.rear.outer",
            UpperOuter => "upper.outer",
            StrutTop => "upper.top",
            StrutFoot => "upper.foot",
            TrackRodInner => "track_rod.inner",
            TrackRodOuter => "track_rod.outer",
            SpringTop => "spring.top",
            SpringFoot => "spring.foot",
            WheelCentre => "wheel.centre",
            ShaftInner => "half_shaft.inner",
            ShaftOuter => "half_shaft.outer",
            BarPivot => "anti_roll_bar.pivot",
            BarLever => "anti_roll_bar.lever",
            BarLink => "anti_roll_bar.link",
            RockerPivot => "spring.rocker.pivot",
            RockerRod => "spring.rocker.rod",
            RockerSpring => "spring.rocker.spring",
        }
    }
}
