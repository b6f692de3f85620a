//! Bends to begin with: on the arm's own straight line at rest, there to be moved.

use kernel::{Layout, Member, PointId, Vec3};

/// The members that may be bent.
const BENT: [Member; 4] = [Member::LowerFront, Member::LowerRear, Member::UpperFront, Member::UpperRear];

/// The arms and wishbone legs of an axle.
pub fn arms(layout: &Layout) -> impl Iterator<Item = Member> + '_ {
    BENT.into_iter().filter(|member| ends(layout, *member).is_some())
}

/// One more bend of an arm: half-way from its last bend, or from its inner joint, to its outer joint, to the whole mm (and no negative nought).
pub fn next(layout: &Layout, member: Member) -> Option<Vec3> {
    let [inner, outer] = ends(layout, member)?;
    let last = layout.solid().via.get(&member).and_then(|points| points.last().copied());
    Some(last.unwrap_or(inner).lerp(&outer, 0.5).map(|mm| mm.round() + 0.0))
}

/// Where its joints are at rest: the outer one is a wishbone's or the arm's own.
fn ends(layout: &Layout, member: Member) -> Option<[Vec3; 2]> {
    use PointId::*;
    let (inner, own, shared) = match member {
        Member::LowerFront => (LowerFrontInner, LowerFrontOuter, LowerOuter),
        Member::LowerRear => (LowerRearInner, LowerRearOuter, LowerOuter),
        Member::UpperFront => (UpperFrontInner, UpperFrontOuter, UpperOuter),
        Member::UpperRear => (UpperRearInner, UpperRearOuter, UpperOuter),
        Member::Strut | Member::TrackRod => return None,
    };
    Some([layout.point(inner)?, layout.point(own).or_else(|| layout.point(shared))?])
}
