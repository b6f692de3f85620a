//! Wheel space as the page tells it: what its pieces are called, and what a grid of positions has brought.

use super::Solved;
use crate::text::number::{fixed, signed};
use kernel::space::{At, Clearance, Extreme, Gap, Piece, Pieces};
use kernel::{Layout, LeftOrRight, Member, Obstacle, Vec3};

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
    /// The depth of the arch: lines along which the least y that the tyre reaches is one and the same.
    pub depth: Vec<Contour>,
    /// The edge of the arch from the side: closed lines of x and z, mm.
    pub arch: Vec<Vec<[f64; 2]>>,
}

impl Room {
    /// How far the tyre reaches, mm, by the name of the command line.
    pub fn extreme(&self, name: &str) -> Option<f64> {
        self.reach.iter().find(|(other, _)| other == name).map(|(_, extreme)| extreme.value)
    }
}

/// A line of one depth.
#[derive(Clone, Debug, PartialEq)]
pub struct Contour {
    /// The least y along it, mm.
    pub y: f64,
    /// True if it comes back to where it began.
    pub closed: bool,
    /// Its x and z, mm.
    pub points: Vec<[f64; 2]>,
}

/// Closed lines of a view, from ahead, from the side and from above, mm.
pub type Views = [Vec<Vec<Vec3>>; 3];

/// The outlines of the tyre's envelope, and of what is no farther from it than a margin.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outlines {
    /// Those of the tyre.
    pub tyre: Views,
    /// Those with the margin round it; empty without one.
    pub margin: Views,
    /// The litres with the margin, inboard of the tyre's outermost y at rest; `None` without one.
    pub litres: Option<f64>,
}

/// How near the pieces of the wheel shown are to each other now.
pub struct Now {
    /// The distance of each pair, the least first.
    pub gaps: Vec<Gap>,
    /// The ends of the smallest gap, mm; `None` where something meets.
    pub nearest: Option<[Vec3; 2]>,
    /// What meets something, a member with its line, mm.
    pub meeting: Vec<(Piece, Vec<Vec3>)>,
    /// A spring or a strut with what runs through it at rest, and which it is built round.
    pub through: Vec<[Piece; 2]>,
    /// Bent arms with the lines that they run along, mm.
    pub bent: Vec<(Member, Vec<Vec3>)>,
}

/// What is drawn of it.
#[derive(Clone, Copy)]
pub struct Drawn<'a> {
    /// How near the pieces are to each other now.
    pub now: &'a Now,
    /// Where the tyre goes, if that is wanted and known.
    pub outlines: Option<&'a Outlines>,
    /// True while that is another car's.
    pub old: bool,
}

impl Now {
    /// That of the axle as it stands.
    pub fn of(good: &Solved) -> Now {
        let (pieces, position) = (Pieces::of(&good.axle, good.axle.shown()), &good.now.position);
        let mut gaps = pieces.apart(position);
        gaps.sort_by(|a, b| a.value.total_cmp(&b.value));
        let least = gaps.first().filter(|gap| gap.value > 0.0);
        let nearest = least.and_then(|gap| pieces.nearest(gap.between, position));
        let mut meeting: Vec<(Piece, Vec<Vec3>)> = Vec::new();
        for piece in gaps.iter().filter(|gap| gap.value <= 0.0).flat_map(|gap| gap.between) {
            if meeting.iter().all(|(other, _)| *other != piece) {
                meeting.push((piece, pieces.line(piece, position).map_or(Vec::new(), |(line, _)| line)));
            }
        }
        let bends = good.axle.layout().solid().via;
        let line = |member| Some((member, pieces.line(Piece::Member(member), position)?.0));
        let bent = bends.iter().filter_map(|(member, _)| line(*member)).collect();
        Now { gaps, nearest, meeting, through: pieces.through().to_vec(), bent }
    }
}

/// What of a box is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// Its middle: all of it moves.
    Middle,
    /// The corner that it reaches from.
    From,
    /// The opposite one.
    To,
}

impl Held {
    /// All that can be held.
    pub const ALL: [Held; 3] = [Held::Middle, Held::From, Held::To];

    /// Where it is, mm.
    pub fn place(self, one: &Obstacle) -> Vec3 {
        match self {
            Held::Middle => one.from.lerp(&one.to, 0.5),
            Held::From => one.from,
            Held::To => one.to,
        }
    }
}

/// A box, seen from the wheel shown as a left one.
pub fn shown(one: &Obstacle, side: LeftOrRight) -> Obstacle {
    if side == LeftOrRight::Left { one.clone() } else { one.mirrored() }
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

/// What the tyre takes over the grid, in a sentence.
pub fn litres(room: &Room) -> String {
    let left_out = match room.unreached {
        0 => String::new(),
        1 => " One position can’t be reached and is left out.".into(),
        many => format!(" {many} positions can’t be reached and are left out."),
    };
    let [litres, turning] = [room.litres, room.turning].map(|litres| fixed(litres, 1));
    format!("The tyre takes {litres} litres; {turning} of them are for steering.{left_out}")
}

/// What one axle saves of the litres that another, laid over it, takes.
pub fn saved(own: &Room, other: &Room) -> String {
    let [theirs, turning] = [other.litres, other.turning].map(|litres| fixed(litres, 1));
    let less = other.litres - own.litres;
    let by = fixed(less.abs(), 1);
    let told = match by.as_str() {
        "0.0" => "this axle takes as much".into(),
        _ if less > 0.0 => format!("this axle saves {by} litres"),
        _ => format!("this axle takes {by} litres more"),
    };
    format!("The axle laid over takes {theirs} litres, {turning} of them for steering: {told}.")
}

/// What springs and struts are built round, in a sentence; empty where there is nothing.
pub fn built_round(through: &[[Piece; 2]], layout: &Layout) -> String {
    let upright = |piece: &Piece| matches!(piece, Piece::Spring | Piece::Member(Member::Strut));
    let of = |which: Piece| {
        let others = through.iter().filter(|pair| pair.iter().find(|piece| upright(piece)) == Some(&which));
        let others = others.flatten().filter(|piece| **piece != which);
        let others: Vec<String> = others.map(|piece| format!("the {}", name(*piece, layout))).collect();
        let others = match &others[..] {
            [] => return None,
            [head @ .., last] if !head.is_empty() => format!("{} and {last}", head.join(", ")),
            _ => others.concat(),
        };
        Some(format!("the {} is built round {others}", name(which, layout)))
    };
    let told: Vec<String> = [Piece::Spring, Piece::Member(Member::Strut)].into_iter().filter_map(of).collect();
    match told.join(", ") {
        told if told.is_empty() => told,
        told => format!("Taken for granted: {told}, with a fork or a window; at rest one runs through the other."),
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
