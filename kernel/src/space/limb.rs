//! A member as it moves: which points its line runs through, and what each of them rides on.

use super::capsule::Capsule;
use super::piece::Piece;
use crate::axle::Axle;
use crate::frame::Vec3;
use crate::layout::{Built, Guide, Layout, LeftOrRight, Member, Part, Solid, SpringOn};
use crate::linkage::{Constraint, Follower, Linkage, Row};
use crate::pose::Position;

/// A member of a wheel, ready to be placed.
#[derive(Clone, Debug)]
pub(super) struct Limb {
    pub piece: Piece,
    line: Vec<Place>,
    radius: f64,
    /// Where its line begins and ends in the design at rest, mm.
    ends: [Vec3; 2],
    /// The part of the guides that it is, or is of.
    part: Option<Part>,
    /// The part that it rides on.
    rides_on: Option<Part>,
}

/// What a point of a member's line rides on.
#[derive(Clone, Debug)]
enum Place {
    /// The joint on the body or the rack of a guiding row.
    Inner(usize),
    /// A part that moves.
    On(Follower),
    /// The body.
    Fixed(Vec3),
    /// The spring's end on a foot or the rocker.
    SpringEnd,
}

/// Joints nearer than this in the design, mm, are one: the file gives both the same place.
const SAME: f64 = 1e-6;

impl Limb {
    /// Where it is at a position.
    pub fn at(&self, linkage: &Linkage, position: &Position) -> Capsule {
        let place = |place: &Place| match place {
            Place::Inner(row) => linkage.rows[*row].constraint.inner_at(position.rack),
            Place::On(follower) => follower.foot(&position.pose),
            Place::Fixed(at) => *at,
            Place::SpringEnd => linkage.spring.ends(&position.pose)[1],
        };
        Capsule { line: self.line.iter().map(place).collect(), radius: self.radius }
    }

    /// True for two that have a joint in common, or of which one rides on the other or stands round it.
    pub fn connected(&self, other: &Limb) -> bool {
        let joined = self.ends.iter().any(|a| other.ends.iter().any(|b| (a - b).norm() < SAME));
        let rides = |a: &Limb, b: &Limb| a.rides_on.is_some() && a.rides_on == b.part;
        joined || rides(self, other) || rides(other, self)
    }
}

/// The members of a wheel, in the order of tables.
pub(super) fn limbs(axle: &Axle, side: LeftOrRight) -> Vec<Limb> {
    let (design, linkage) = (axle.layout(), &axle.linkages()[side.index()]);
    let (solid, built) = (design.solid(), Built::of(design, side));
    let mut limbs: Vec<Limb> = Vec::new();
    for (at, row) in linkage.rows.iter().enumerate() {
        // A strut has two rows and one tube.
        if limbs.iter().all(|limb| limb.piece != Piece::Member(row.member)) {
            limbs.push(guide(design, linkage, &built, &solid, at, row));
        }
    }
    limbs.push(spring(design, linkage, &built, &solid));
    limbs.extend(half_shaft(design, linkage, &built, &solid, side));
    limbs
}

/// An arm, a leg, the track rod or the strut.
fn guide(design: &Layout, linkage: &Linkage, built: &Built, solid: &Solid, at: usize, row: &Row) -> Limb {
    let on_carrier = match row.constraint {
        Constraint::Rod { outer, .. } => outer,
        Constraint::Slide { foot, .. } => foot,
    };
    let bends = solid.via.get(&row.member).into_iter().flatten();
    let bends = bends.map(|bend| Place::On(linkage.rider(design, riding_on(design, row.member), *bend, built)));
    let thickness = match row.member {
        Member::TrackRod => solid.track_rod(),
        Member::Strut => solid.strut(),
        _ => solid.arm(),
    };
    Limb {
        piece: Piece::Member(row.member),
        line: [Place::Inner(at)].into_iter().chain(bends).chain([Place::On(Follower::Carrier(on_carrier))]).collect(),
        radius: thickness / 2.0,
        ends: row.joints.map(|id| design.point(id).unwrap_or_default()),
        part: Some(row.part),
        rides_on: None,
    }
}

/// What a bend of a member rides on.
fn riding_on(design: &Layout, member: Member) -> SpringOn {
    let wishbone = |guide: &Guide| matches!(guide, Guide::Wishbone { .. });
    match member {
        Member::LowerFront | Member::LowerRear if wishbone(&design.lower) => SpringOn::Lower,
        Member::UpperFront | Member::UpperRear if wishbone(&design.upper) => SpringOn::Upper,
        Member::LowerFront => SpringOn::LowerFront,
        Member::LowerRear => SpringOn::LowerRear,
        Member::UpperFront => SpringOn::UpperFront,
        Member::UpperRear => SpringOn::UpperRear,
        Member::Strut | Member::TrackRod => SpringOn::Carrier,
    }
}

/// The spring. One along the strut ends at its seat, or at the strut's foot if that is nearer; its seat rides on the carrier.
fn spring(design: &Layout, linkage: &Linkage, built: &Built, solid: &Solid) -> Limb {
    let spring = &design.spring;
    let (end, ends) = match (spring.top, spring.foot, &design.upper) {
        (Some(top), Some(foot), _) => (Place::SpringEnd, [top, spring.rocker.map_or(foot, |rocker| rocker.spring)]),
        (_, _, Guide::Strut { top, foot }) => {
            let seat = top + (foot - top) * (solid.spring_seat() / (foot - top).norm()).min(1.0);
            (Place::On(linkage.rider(design, SpringOn::Carrier, seat, built)), [*top, seat])
        }
        // The check of a layout lets no other through.
        _ => (Place::SpringEnd, [linkage.spring.top; 2]),
    };
    let rides_on = match spring.on {
        _ if spring.rocker.is_some() => None,
        SpringOn::Strut => Some(Part::Strut),
        on => Part::under(on),
    };
    let line = vec![Place::Fixed(linkage.spring.top), end];
    Limb { piece: Piece::Spring, line, radius: solid.spring() / 2.0, ends, part: None, rides_on }
}

fn half_shaft(design: &Layout, linkage: &Linkage, built: &Built, solid: &Solid, side: LeftOrRight) -> Option<Limb> {
    let mut shaft = linkage.half_shaft?;
    if let Some(y) = shaft.right_inner_y.filter(|_| side == LeftOrRight::Right) {
        shaft.inner.y = -y;
    }
    let outer = linkage.rider(design, SpringOn::Carrier, shaft.outer, built);
    Some(Limb {
        piece: Piece::HalfShaft,
        line: vec![Place::Fixed(shaft.inner), Place::On(outer)],
        radius: solid.half_shaft() / 2.0,
        ends: [shaft.inner, shaft.outer],
        part: None,
        rides_on: None,
    })
}
