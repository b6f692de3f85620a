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
