//! All solid pieces of one wheel's corner of the car, and how near they come to each other.

use super::capsule::Capsule;
use super::cuboid::Cuboid;
use super::limb::{Limb, limbs};
use super::near::{self, Body};
use super::piece::Piece;
use super::ring::Ring;
use super::tyre::Tyre;
use crate::axle::Axle;
use crate::frame::Vec3;
use crate::layout::{Layout, LeftOrRight, Member, Wheel};
use crate::linkage::Linkage;
use crate::pose::Position;

/// The wheel disc, from its inboard to its outboard face, mm outboard of the wheel plane. Brake and carrier are not modelled.
const DISC: [f64; 2] = [20.0, 40.0];

/// The solid pieces of one wheel of an axle, seen as a left one. Made once.
#[derive(Clone, Debug)]
pub struct Pieces {
    linkage: Linkage,
    wheel: Wheel,
    limbs: Vec<Limb>,
    boxes: Vec<(usize, Cuboid)>,
    pairs: Vec<[Piece; 2]>,
    through: Vec<[Piece; 2]>,
}

/// Two pieces and the distance between them, mm. A negative one says that they meet; its size is no depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// The two.
    pub between: [Piece; 2],
    /// The distance, mm.
    pub value: f64,
}

impl Gap {
    /// True for a spring or a strut that meets another member.
    fn runs_through(&self) -> bool {
        let upright = |piece: &Piece| matches!(piece, Piece::Spring | Piece::Member(Member::Strut));
        let member = |piece: &Piece| !matches!(piece, Piece::Wheel | Piece::Box(_));
        self.value <= 0.0 && self.between.iter().any(upright) && self.between.iter().all(member)
    }
}

impl Pieces {
    /// The pieces of one wheel as it is built.
    pub fn of(axle: &Axle, side: LeftOrRight) -> Pieces {
        let (wheel, limbs, boxes) = (axle.built_of(side).wheel.clone(), limbs(axle, side), boxes(axle.layout(), side));
        let mut pieces = Pieces {
            linkage: axle.linkages()[side.index()].clone(),
            wheel,
            limbs,
            boxes,
            pairs: Vec::new(),
            through: Vec::new(),
        };
        let at_rest = pieces.gaps(&Position::at_rest(&pieces.linkage));
        pieces.pairs = at_rest.iter().map(|gap| gap.between).collect();
        pieces.through = at_rest.iter().filter(|gap| gap.runs_through()).map(|gap| gap.between).collect();
        pieces
    }

    /// The equations of this wheel.
    pub fn linkage(&self) -> &Linkage {
        &self.linkage
    }

    /// The tyre at a position.
    pub fn tyre(&self, position: &Position) -> Tyre {
        Tyre::new(&self.wheel, position.pose.w, position.pose.r * self.linkage.spin)
    }

    /// The tyre's outermost y at rest, mm: where a wheel arch would end.
    pub fn side_plane(&self) -> f64 {
        self.tyre(&Position::at_rest(&self.linkage)).support(Vec3::y())
    }

    /// Which pieces may meet: the wheel and a member, each with a box, and members that are not connected.
    pub fn pairs(&self) -> &[[Piece; 2]] {
        &self.pairs
    }

    /// The distance of each of the [pairs](Pieces::pairs) at a position.
    pub fn gaps(&self, position: &Position) -> Vec<Gap> {
        self.at(position).gaps()
    }

    /// The pairs of a spring or a strut and what runs through it at rest: an arm through the coil's place, a half-shaft under it. In a car it is built
    /// round that, with a fork or a window, which round bars do not show.
    pub fn through(&self) -> &[[Piece; 2]] {
        &self.through
    }

    /// The distances of the pairs but those that run [through](Pieces::through) each other: what must not touch.
    pub fn apart(&self, position: &Position) -> Vec<Gap> {
        self.gaps(position).into_iter().filter(|gap| !self.through.contains(&gap.between)).collect()
    }

    /// The least of them: the reading “least gap”.
    pub fn least_gap(&self, position: &Position) -> Option<Gap> {
        self.apart(position).into_iter().min_by(|a, b| a.value.total_cmp(&b.value))
    }

    /// That of two pieces, whichever is named first; `None` of what is none of the pairs.
    pub fn gap(&self, between: [Piece; 2], position: &Position) -> Option<Gap> {
        let [a, b] = between;
        self.gaps(position).into_iter().find(|gap| gap.between == between || gap.between == [b, a])
    }

    /// A member's line at a position and its radius, mm; `None` for wheel and boxes, and what the axle does not have.
    pub fn line(&self, piece: Piece, position: &Position) -> Option<(Vec<Vec3>, f64)> {
        let limb = self.limbs.iter().find(|limb| limb.piece == piece)?;
        let Capsule { line, radius } = limb.at(&self.linkage, position);
        Some((line, radius))
    }

    /// Where two pieces are nearest to each other at a position, a point on each; `None` of what the axle does not have. Of pieces that meet it says
    /// nothing.
    pub fn nearest(&self, between: [Piece; 2], position: &Position) -> Option<[Vec3; 2]> {
        let placed = self.at(position);
        let [a, b] = between.map(|piece| placed.body(piece));
        Some(near::nearest(&a?, &b?))
    }

    fn at(&self, position: &Position) -> Placed<'_> {
        let tyre = self.tyre(position);
        let inner = self.wheel.rim_radius();
        let [from, to] = DISC;
        let disc = Tyre {
            centre: tyre.centre + tyre.spin * f64::midpoint(from, to),
            radius: inner,
            half: (to - from) / 2.0,
            shoulder: 0.0,
            ..tyre
        };
        let limbs = self.limbs.iter().map(|limb| limb.at(&self.linkage, position)).collect();
        Placed { pieces: self, wheel: [Ring { tyre, inner }, Ring { tyre: disc, inner: 0.0 }], limbs }
    }
}

/// The boxes that a wheel seen as a left one meets, by their places in the list. The right wheel's are the mirror images.
fn boxes(layout: &Layout, side: LeftOrRight) -> Vec<(usize, Cuboid)> {
    let both = layout.boxes.iter().enumerate().flat_map(|(i, one)| {
        let own = if side == LeftOrRight::Left { one.clone() } else { one.mirrored() };
        let image = one.mirrored.unwrap_or_default().then(|| own.mirrored());
        [Some(own), image].into_iter().flatten().map(move |one| (i, Cuboid::from(&one)))
    });
    both.collect()
}

/// The pieces at a position.
struct Placed<'a> {
    pieces: &'a Pieces,
    /// The ring, and the disc in it.
    wheel: [Ring; 2],
    limbs: Vec<Capsule>,
}

impl Placed<'_> {
    fn body(&self, piece: Piece) -> Option<Body<'_>> {
        let limb = || self.pieces.limbs.iter().position(|limb| limb.piece == piece);
        match piece {
            Piece::Wheel => Some(Body::Wheel(&self.wheel)),
            Piece::Box(which) => {
                let boxes = self.pieces.boxes.iter().filter(|(i, _)| *i == which);
                Some(Body::Boxes(boxes.map(|(_, one)| one).collect()))
            }
            _ => limb().map(|at| Body::Limb(&self.limbs[at])),
        }
    }

    fn gaps(&self) -> Vec<Gap> {
        let Pieces { limbs, boxes, .. } = self.pieces;
        let members = || limbs.iter().zip(&self.limbs);
        let mut gaps = Vec::with_capacity(self.pieces.pairs.len());
        let mut add = |a, b, value| gaps.push(Gap { between: [a, b], value });
        let of_wheel = |distance: &dyn Fn(&Ring) -> f64| self.wheel.iter().map(distance).fold(f64::INFINITY, f64::min);
        let of_box = |which: usize, distance: &dyn Fn(&Cuboid) -> f64| {
            boxes.iter().filter(|(i, _)| *i == which).map(|(_, one)| distance(one)).fold(f64::INFINITY, f64::min)
        };
        let mut named: Vec<usize> = boxes.iter().map(|(i, _)| *i).collect();
        named.dedup();
        for (limb, capsule) in members() {
            add(Piece::Wheel, limb.piece, of_wheel(&|ring| capsule.off_ring(ring)));
        }
        for &which in &named {
            add(Piece::Wheel, Piece::Box(which), of_wheel(&|ring| of_box(which, &|one| ring.off_box(one))));
        }
        for (limb, capsule) in members() {
            for &which in &named {
                add(limb.piece, Piece::Box(which), of_box(which, &|one| capsule.off_box(one)));
            }
        }
        for (i, (limb, capsule)) in members().enumerate() {
            for (other, theirs) in members().skip(i + 1).filter(|(other, _)| !limb.connected(other)) {
                add(limb.piece, other.piece, capsule.off_other(theirs));
            }
        }
        gaps
    }
}
