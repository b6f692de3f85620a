//! Remarks: what looks like a slip in a layout that is otherwise sound. They never keep anybody from anything.
//!
//! All are of the design as it stands at rest, where the road is at z = 0, so none comes from what was changed of a car on purpose.

use crate::frame::{Vec3, spin_axis};
use crate::layout::{Guide, Layout, Level, Member, PointId, Rod};
use crate::linkage::Linkage;
use crate::pose::{Demand, Position};
use crate::state::State;

/// Something that looks like a slip. Lengths mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remark {
    /// A point of the left wheel stands at this y, on the right of the car.
    OtherSide(PointId, f64),
    /// A point stands so far below the road.
    BelowRoad(PointId, f64),
    /// Coordinate 0, 1, 2 of a point has this value; with one digit more or fewer it would fit to those of its kin.
    Digit(PointId, usize, f64, f64),
    /// A ball joint stands so far above the strut's foot.
    AboveFoot(PointId, f64),
    /// A point lies within the tyre, so far behind its nearer face.
    InTyre(PointId, f64),
    /// The contact point stands so far above the road, by the wheel centre's height and the loaded radius.
    OffRoad(f64),
    /// Kingpin inclination, degrees.
    Inclination(f64),
    /// Two members lie along one line, but for so much.
    InLine(Member, Member, f64),
}

/// Contact points this far off the road are a slip; nearer, the car stands at another height than it was measured at.
const OFF_ROAD: f64 = 30.0;
/// Kingpin inclinations that there are, degrees; common practice has 5 to 16, virtual axes a little less and more.
const INCLINATION: [f64; 2] = [0.0, 20.0];
/// Members that lie along one line to within this hold the wheel as one would; those of usual axles are ten times as far apart.
const IN_LINE: f64 = 20.0;
/// Height of a sidewall over the tyre's width, the least usual one: whoever gives no rim gives no other. Invented.
const SIDEWALL: f64 = 0.4;
/// A coordinate as far from its kin as this part of theirs may have a wrong digit, and is right if that brings it as near as the other.
const FAR: f64 = 0.5;
const NEAR: f64 = 0.3;
/// Kin nearer to 0 than this tell nothing of digits.
const TELLS: f64 = 50.0;

/// Everything that looks like a slip.
pub fn remarks(layout: &Layout) -> Vec<Remark> {
    let mut found = Vec::new();
    for (id, at) in layout.points() {
        found.extend((at.y < 0.0).then_some(Remark::OtherSide(id, at.y)));
        found.extend((at.z < 0.0).then_some(Remark::BelowRoad(id, -at.z)));
        found.extend([1, 2].into_iter().filter_map(|axis| digit(layout, id, axis)));
        found.extend(in_tyre(layout, at).map(|deep| Remark::InTyre(id, deep)).filter(|_| id != PointId::WheelCentre));
    }
    found.extend(above_foot(layout));
    let spin = spin_axis(layout.wheel.camber, layout.wheel.toe);
    let contact = layout.wheel.centre.z - layout.wheel.loaded_radius * spin.xy().norm();
    found.extend((contact.abs() > OFF_ROAD).then_some(Remark::OffRoad(contact)));
    found.extend(inclination(layout).map(Remark::Inclination));
    found.extend(in_line(layout));
    found
}

/// Places that a coordinate is usually near to: along y those of the same end of the members, along z those of the same guide.
const KIN: [(usize, &[PointId]); 5] = {
    use PointId::*;
    [
        (1, &[LowerFrontInner, LowerRearInner, UpperFrontInner, UpperRearInner, TrackRodInner]),
        (
            1,
            &[
                LowerFrontOuter,
                LowerRearOuter,
                LowerOuter,
                UpperFrontOuter,
                UpperRearOuter,
                UpperOuter,
                TrackRodOuter,
                WheelCentre,
            ],
        ),
        (2, &[LowerFrontInner, LowerRearInner, LowerFrontOuter, LowerRearOuter, LowerOuter]),
        (2, &[UpperFrontInner, UpperRearInner, UpperFrontOuter, UpperRearOuter, UpperOuter]),
        (2, &[TrackRodInner, TrackRodOuter]),
    ]
};

fn digit(layout: &Layout, id: PointId, axis: usize) -> Option<Remark> {
    let (_, kin) = KIN.iter().find(|(of, kin)| *of == axis && kin.contains(&id))?;
    let mut others: Vec<f64> =
        kin.iter().filter(|other| **other != id).filter_map(|other| Some(layout.point(*other)?[axis])).collect();
    others.sort_by(f64::total_cmp);
    let usual = *others.get(others.len() / 2).filter(|usual| usual.abs() >= TELLS)?;
    let is = layout.point(id)?[axis];
    let off = |value: f64| (value - usual).abs() / usual.abs();
    let meant = [is * 10.0, is / 10.0].into_iter().find(|meant| off(*meant) <= NEAR)?;
    (off(is) > FAR).then_some(Remark::Digit(id, axis, is, meant))
}

/// How far a place lies behind the tyre's nearer face; `None` outside of the tyre and within the rim.
fn in_tyre(layout: &Layout, at: Vec3) -> Option<f64> {
    let wheel = &layout.wheel;
    let (spin, from) = (spin_axis(wheel.camber, wheel.toe), at - wheel.centre);
    let along = from.dot(&spin);
    let radius = (from - spin * along).norm();
    let deep = wheel.width / 2.0 - along.abs();
    (deep > 0.0 && radius < wheel.free_radius && radius > wheel.free_radius - SIDEWALL * wheel.width).then_some(deep)
}

fn above_foot(layout: &Layout) -> impl Iterator<Item = Remark> + '_ {
    let foot = layout.point(PointId::StrutFoot);
    let [front, rear] = Level::Lower.outer_joints();
    [Level::Lower.ball_joint(), front, rear].into_iter().filter_map(move |id| {
        let above = layout.point(id)?.z - foot?.z;
        (above > 0.0).then_some(Remark::AboveFoot(id, above))
    })
}

/// An inclination that no axle has.
fn inclination(layout: &Layout) -> Option<f64> {
    let linkage = Linkage::new(layout).ok()?;
    let state = State::solve(&linkage, Demand::new(0.0, 0.0), &Position::at_rest(&linkage)).ok()?;
    let [least, most] = INCLINATION;
    state.axis.ok().map(|axis| axis.inclination).filter(|inclination| !(least..=most).contains(inclination))
}

/// Pairs of members along one line. Where both joints of the one are near the line of the other, both hold the carrier by one and the same line.
fn in_line(layout: &Layout) -> Vec<Remark> {
    let legs = |guide: &Guide, members: [Member; 2]| match *guide {
        Guide::Arms { front, rear } => members.into_iter().zip([front, rear]).collect(),
        Guide::Wishbone { front, rear, outer } => {
            members.into_iter().zip([front, rear].map(|inner| Rod { inner, outer })).collect()
        }
        Guide::Strut { .. } => Vec::new(),
    };
    let mut rods: Vec<(Member, Rod)> = legs(&layout.lower, [Member::LowerFront, Member::LowerRear]);
    rods.extend(legs(&layout.upper, [Member::UpperFront, Member::UpperRear]));
    rods.push((Member::TrackRod, layout.track_rod));
    let pairs = (0..rods.len()).flat_map(|other| (0..other).map(move |one| (one, other)));
    let near = |(one, other): (usize, usize)| {
        let off = f64::min(beside(&rods[one].1, &rods[other].1), beside(&rods[other].1, &rods[one].1));
        (off < IN_LINE).then_some(Remark::InLine(rods[one].0, rods[other].0, off))
    };
    pairs.filter_map(near).collect()
}

/// The greater distance of a rod's joints from the line of another; more than anything where that has no length.
fn beside(line: &Rod, rod: &Rod) -> f64 {
    let Some(along) = (line.outer - line.inner).try_normalize(f64::EPSILON) else { return f64::INFINITY };
    [rod.inner, rod.outer].map(|joint| along.cross(&(joint - line.inner)).norm()).into_iter().fold(0.0, f64::max)
}
