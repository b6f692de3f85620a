//! What can touch what: the wheel, members, the spring, the half-shaft, boxes.

use crate::layout::{Layout, Member};

/// A solid piece of a wheel's corner of the car.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Piece {
    /// Tyre, rim and wheel disc.
    Wheel,
    /// An arm, a wishbone's leg, the track rod, the strut's tube.
    Member(Member),
    /// The spring.
    Spring,
    /// The half-shaft.
    HalfShaft,
    /// A box, by its place in the layout's list.
    Box(usize),
}

impl Piece {
    /// All pieces that an axle can have, in an order that only its boxes make longer.
    pub fn all(layout: &Layout) -> Vec<Piece> {
        let members = Member::RODS.into_iter().chain([Member::Strut]).map(Piece::Member);
        let boxes = (0..layout.boxes.len()).map(Piece::Box);
        [Piece::Wheel, Piece::Spring, Piece::HalfShaft].into_iter().chain(members).chain(boxes).collect()
    }

    /// The piece of a name in tables.
    pub fn named(name: &str, layout: &Layout) -> Option<Piece> {
        Piece::all(layout).into_iter().find(|piece| piece.name(layout) == name)
    }

    /// Its name in tables; a box has its own.
    pub fn name(self, layout: &Layout) -> String {
        match self {
            Piece::Wheel => "wheel".into(),
            Piece::Member(Member::Strut) => "strut".into(),
            Piece::Member(member) => member.path().into(),
            Piece::Spring => "spring".into(),
            Piece::HalfShaft => "half_shaft".into(),
            Piece::Box(which) => layout.boxes.get(which).map_or_else(String::new, |one| one.name.clone()),
        }
    }
}
