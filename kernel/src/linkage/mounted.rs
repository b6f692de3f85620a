//! What the spring, and the anti-roll bar's drop link, stand on, of a layout.

use super::{Follower, RockerLine, SpringLine};
use crate::frame::Vec3;
use crate::layout::{Guide, Layout, SpringOn};

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
