//! Parts that are too short to be parts.

use super::problem::SHORTEST;
use super::{AntiRollBar, Guide, HalfShaft, Layout, Problem, Rocker, Rod};
use crate::frame::Vec3;

/// What of a layout is too short.
pub(super) fn lengths(layout: &Layout, problems: &mut Vec<Problem>) {
    if matches!(layout.lower, Guide::Strut { .. }) {
        problems.push(Problem::StrutBelow);
    }
    guide(&layout.lower, ["lower front arm", "lower rear arm", "lower wishbone"], problems);
    guide(&layout.upper, ["upper front arm", "upper rear arm", "upper wishbone"], problems);
    rod("track rod", &layout.track_rod, problems);
    if let Some(HalfShaft { inner, outer, .. }) = layout.half_shaft {
        rod("half-shaft", &Rod { inner, outer }, problems);
    }
    if let Some(Rocker { pivot, axis, rod: joint, spring }) = layout.spring.rocker {
        let direction = axis.try_normalize(1e-9);
        let arm = |joint: Vec3| direction.map_or(0.0, |e| (joint - pivot).cross(&e).norm());
        for (what, length) in [("rocker’s arm to the rod", arm(joint)), ("rocker’s arm to the spring", arm(spring))]
        {
            if length < SHORTEST {
                problems.push(Problem::Short(what, length));
            }
        }
        if let (Some(top), Some(foot)) = (layout.spring.top, layout.spring.foot) {
            rod("rocker’s rod", &Rod { inner: joint, outer: foot }, problems);
            rod("spring", &Rod { inner: top, outer: spring }, problems);
        }
    } else if let (Some(inner), Some(outer)) = (layout.spring.top, layout.spring.foot) {
        rod("spring", &Rod { inner, outer }, problems);
    }
    if let Some(AntiRollBar { pivot, lever, link, .. }) = layout.anti_roll_bar {
        rod("anti-roll bar’s drop link", &Rod { inner: lever, outer: link }, problems);
        let arm = (lever - pivot).xz().norm();
        if arm < SHORTEST {
            problems.push(Problem::Short("anti-roll bar’s lever", arm));
        }
    }
}

fn rod(name: &'static str, rod: &Rod, problems: &mut Vec<Problem>) {
    let length = (rod.outer - rod.inner).norm();
    if length < SHORTEST {
        problems.push(Problem::Short(name, length));
    }
}

fn guide(guide: &Guide, [front_arm, rear_arm, wishbone]: [&'static str; 3], problems: &mut Vec<Problem>) {
    match guide {
        Guide::Arms { front, rear } => {
            rod(front_arm, front, problems);
            rod(rear_arm, rear, problems);
        }
        Guide::Strut { top, foot } => rod("strut", &Rod { inner: *top, outer: *foot }, problems),
        Guide::Wishbone { front, rear, outer } => {
            let base = (rear - front).norm();
            if base < SHORTEST {
                problems.push(Problem::Short(wishbone, base));
            } else {
                let arm: Vec3 = outer - front;
                let height = (rear - front).cross(&arm).norm() / base;
                if height < SHORTEST {
                    problems.push(Problem::OnItsAxis(wishbone, height));
                }
            }
        }
    }
}
