//! What rides on a part: the spring's foot, and with it the spring's line; the drop link; the bend of an arm.

use super::{Follower, Linkage, RockerLine, Row, SpringLine};
use crate::frame::Vec3;
use crate::layout::{Built, Guide, Layout, Part, SpringOn};

impl Linkage {
    /// A point of the design that rides on some part, on this side as it is built.
    pub(crate) fn rider(&self, design: &Layout, on: SpringOn, at: Vec3, built: &Built) -> Follower {
        self.follows(&follower(design, on, at), on, built)
    }

    /// A foot of the design that rides on some part, on this linkage's.
    pub(super) fn follows(&self, follower: &Follower, on: SpringOn, built: &Built) -> Follower {
        let rods: Vec<[Vec3; 2]> =
            self.rows.iter().filter(|row| Some(row.part) == Part::under(on)).filter_map(Row::ends).collect();
        follower.moved(&rods, built.out)
    }
}

/// The spring's line and what its foot rides on. Called on validated layouts; the strut's own ends stand in for missing ones.
pub(super) fn spring_line(layout: &Layout) -> SpringLine {
    let strut = match layout.upper {
        Guide::Strut { top, foot } => (top, foot),
        _ => (layout.wheel.centre, layout.wheel.centre),
    };
    let top = layout.spring.top.unwrap_or(strut.0);
    let foot = layout.spring.foot.unwrap_or(strut.1);
    let rocker = layout.spring.rocker.as_ref().map(|rocker| RockerLine::new(rocker, foot));
    SpringLine { top, follower: follower(layout, layout.spring.on, foot), rocker }
}

/// How a point that rides on a part follows the carrier.
pub(super) fn follower(layout: &Layout, on: SpringOn, foot: Vec3) -> Follower {
    let centre = layout.wheel.centre;
    let arm = |guide: &Guide, front: bool| match guide {
        Guide::Arms { front: rod, .. } if front => Follower::arm(rod, foot, centre),
        Guide::Arms { rear: rod, .. } => Follower::arm(rod, foot, centre),
        _ => Follower::carrier(foot, centre),
    };
    let wishbone = |guide: &Guide| match guide {
        Guide::Wishbone { front, rear, outer } => Follower::wishbone(*front, *rear, *outer, foot, centre),
        _ => Follower::carrier(foot, centre),
    };
    match on {
        SpringOn::Strut | SpringOn::Carrier => Follower::carrier(foot, centre),
        SpringOn::Lower => wishbone(&layout.lower),
        SpringOn::Upper => wishbone(&layout.upper),
        SpringOn::LowerFront => arm(&layout.lower, true),
        SpringOn::LowerRear => arm(&layout.lower, false),
        SpringOn::UpperFront => arm(&layout.upper, true),
        SpringOn::UpperRear => arm(&layout.upper, false),
    }
}
