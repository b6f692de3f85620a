//! Wheel space as the page tells it: what its pieces are called, and what a grid of positions has brought.

use crate::text::number::{fixed, signed};
use kernel::space::{At, Clearance, Extreme, Gap, Piece};
use kernel::{Layout, Member};

/// What a wheel takes up over the usual grid, and how near its pieces come to each other.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Room {
    /// Litres of the tyre's envelope inboard of the tyre's outermost y at rest.
    pub litres: f64,
    /// What of them steering costs.
    pub turning: f64,
    /// How far the tyre reaches, by the names of the command line.
    pub reach: Vec<(String, Extreme)>,
    /// The least distance of each pair, the least first.
    pub clearances: Vec<Clearance>,
    /// How many positions can't be reached.
    pub unreached: usize,
}

/// All pieces that an axle can have, in an order that only its boxes make longer.
pub fn pieces(layout: &Layout) -> Vec<Piece> {
    let members = Member::RODS.into_iter().chain([Member::Strut]).map(Piece::Member);
    let boxes = (0..layout.boxes.len()).map(Piece::Box);
    [Piece::Wheel, Piece::Spring, Piece::HalfShaft].into_iter().chain(members).chain(boxes).collect()
}

/// What people call a piece.
fn name(piece: Piece, layout: &Layout) -> String {
    match piece {
        Piece::Wheel => "wheel".into(),
        Piece::Member(member) => member.name(layout).into(),
        Piece::Spring => "spring".into(),
        Piece::HalfShaft => "half-shaft".into(),
        Piece::Box(which) => layout.boxes.get(which).map_or_else(String::new, |one| format!("“{}”", one.name)),
    }
}

/// What people call a pair of pieces.
pub fn pair([a, b]: [Piece; 2], layout: &Layout) -> String {
    format!("{} – {}", name(a, layout), name(b, layout))
}

/// A distance in mm, to the tenth; of pieces that meet, that they do.
pub fn distance(mm: f64) -> String {
    if mm > 0.0 { fixed(mm, 1) } else { "meet".into() }
}

/// A position in words.
pub fn position(at: At) -> String {
    let [travel, rack] = [at.travel, at.rack].map(|mm| signed(mm, if mm.fract() == 0.0 { 0 } else { 1 }));
    format!("travel {travel}, rack {rack}")
}

/// How far the tyre reaches, by the names of the command line, in words.
pub fn reach(name: &str) -> &'static str {
    match name {
        "reach_y_least_mm" => "furthest inboard, y",
        "reach_y_most_mm" => "furthest outboard, y",
        "reach_x_least_mm" => "furthest to the rear, x",
        "reach_x_most_mm" => "furthest ahead, x",
        _ => "highest, z",
    }
}

/// What the smallest gap is, in a sentence; without any there is none to tell.
pub fn least(gaps: &[Gap], layout: &Layout) -> String {
    let meeting = gaps.iter().filter(|gap| gap.value <= 0.0).count();
    match gaps.first() {
        None => "Nothing here can touch anything else.".into(),
        Some(gap) if meeting == 0 => {
            format!(
                "Nothing meets here; the smallest gap is {} mm, {}.",
                fixed(gap.value, 1),
                pair(gap.between, layout)
            )
        }
        Some(gap) => {
            let others = match meeting - 1 {
                0 => String::new(),
                1 => ", and one pair more".into(),
                more => format!(", and {more} pairs more"),
            };
            format!("Here meet {}{others}.", pair(gap.between, layout).replace(" – ", " and "))
        }
    }
}
