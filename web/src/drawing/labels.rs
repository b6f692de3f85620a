//! Lettering without collisions: higher ranks take their place first, a lower one that finds none is left out.

use super::ink::Ink;
use super::scene::{Anchor, Fill, Item, P, Pen, Stroke, Text};
use super::shapes::{crossing, inside_part};

/// Who goes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rank {
    /// Titles and headings in places of their own.
    Fixed,
    /// The joint in hand.
    Selected,
    /// The axis' name and angle.
    Axis,
    /// Live dimensions.
    Dimension,
    /// The axle laid over.
    Compared,
    /// Members' names.
    Member,
    /// Hints.
    Hint,
}

/// The labels of one view, waiting for their places.
pub struct Labels {
    min: P,
    max: P,
    waiting: Vec<Waiting>,
    taken: Vec<[f64; 4]>,
    joints: Vec<P>,
    lines: Vec<[P; 2]>,
}

/// A label that has no place yet.
struct Waiting {
    rank: Rank,
    /// The places it may take, the best first.
    places: Vec<Text>,
    /// What a leader ties it to.
    on: Option<P>,
    /// What is drawn with it in the first of its places.
    with: Vec<Item>,
}

/// Names and hints keep this far from a joint's symbol, px; what is more important may stand on it.
const JOINT: f64 = 9.0;

/// Free paper round a text, px.
const AIR: f64 = 2.0;

/// Places tried for a name with a leader: how far up (negative) or down from the member, and how far aside, px.
const TRIES: [P; 8] = [
    [-46.0, 24.0],
    [-46.0, -16.0],
    [-46.0, 42.0],
    [-46.0, -34.0],
    [-90.0, 24.0],
    [-90.0, -16.0],
    [-30.0, 62.0],
    [-30.0, -56.0],
];

impl Labels {
    /// For a view between two corners.
    pub fn new(min: P, max: P) -> Labels {
        Labels { min, max, waiting: Vec::new(), taken: Vec::new(), joints: Vec::new(), lines: Vec::new() }
    }

    /// Keeps a box (left, top, right, bottom) free of lettering.
    pub fn keep_out(&mut self, area: [f64; 4]) {
        self.taken.push(area);
    }

    /// Keeps names off a joint's symbol.
    pub fn joint(&mut self, at: P) {
        self.joints.push(at);
    }

    /// Keeps names off a line.
    pub fn line(&mut self, line: [P; 2]) {
        self.lines.push(line);
    }

    /// A text that stands where it stands, or not at all.
    pub fn put(&mut self, rank: Rank, text: Text) {
        if !text.text.is_empty() {
            self.put_first(rank, vec![text]);
        }
    }

    /// A text that takes the first of these places that is free.
    pub fn put_first(&mut self, rank: Rank, places: Vec<Text>) {
        self.waiting.push(Waiting { rank, places, on: None, with: Vec::new() });
    }

    /// A text that takes the first of these places that is free, with lines that make sense at the first one only.
    pub fn put_with(&mut self, rank: Rank, places: Vec<Text>, lines: Pen) {
        self.waiting.push(Waiting { rank, places, on: None, with: lines.items });
    }

    /// A text beside a place, tied to it by a leader that ends in a dot.
    pub fn put_with_leader(&mut self, rank: Rank, text: Text, on: P) {
        let at = |[dx, dy]: &P| Text { at: [on[0] + dx, on[1] + dy], ..text.clone() };
        self.waiting.push(Waiting { rank, places: TRIES.iter().map(at).collect(), on: Some(on), with: Vec::new() });
    }

    /// A text that takes the first of these places that is free, tied to `on` by a leader that ends in a dot.
    pub fn put_on_leader(&mut self, rank: Rank, places: Vec<Text>, on: P) {
        self.waiting.push(Waiting { rank, places, on: Some(on), with: Vec::new() });
    }

    /// Letters what finds a place.
    pub fn letter(mut self, pen: &mut Pen) {
        self.waiting.sort_by_key(|label| label.rank);
        let mut taken = std::mem::take(&mut self.taken);
        let mut leaders: Vec<[P; 2]> = Vec::new();
        for Waiting { rank, places, on, mut with } in std::mem::take(&mut self.waiting) {
            let side = |text: &Text| if text.anchor == Anchor::Start { -4.0 } else { 4.0 };
            let leader = |text: &Text| on.map(|on| [[text.at[0] + side(text), text.at[1] - 4.0], on]);
            let alone =
                |text: &Text| leader(text).is_none_or(|line| leaders.iter().all(|other| !crossing(line, *other)));
            let mut free = places.iter().filter(|text| self.free(text.bounds(), &taken) && alone(text)).peekable();
            // What is important may stand on a joint, if there is no better place.
            let second = free.peek().copied().filter(|_| rank < Rank::Member);
            let place = free.find(|text| self.clear_of_joints(text.bounds())).or(second);
            let Some(text) = place.cloned() else { continue };
            if let Some([elbow, on]) = leader(&text) {
                pen.line(&[elbow, on], Stroke::narrow(Ink::Ink2));
                pen.disc(on, 1.8, Some(Fill::solid(Ink::Ink)), None);
                leaders.push([elbow, on]);
            }
            if places.first().is_some_and(|first| first.at == text.at) {
                pen.items.append(&mut with);
            }
            taken.push(text.bounds());
            pen.text(text);
        }
    }

    /// True if a text lies wholly inside the view.
    pub fn holds(&self, text: &Text) -> bool {
        self.is_inside(text.bounds())
    }

    fn is_inside(&self, [left, top, right, bottom]: [f64; 4]) -> bool {
        left >= self.min[0] && right <= self.max[0] && top >= self.min[1] && bottom <= self.max[1]
    }

    fn free(&self, bounds: [f64; 4], taken: &[[f64; 4]]) -> bool {
        self.is_inside(bounds) && taken.iter().all(|area| apart(bounds, *area))
    }

    fn clear_of_joints(&self, bounds: [f64; 4]) -> bool {
        let [left, top, right, bottom] = bounds;
        let corners = [[left, top], [right, top], [right, bottom], [left, bottom]];
        self.joints.iter().all(|[x, y]| apart(bounds, [x - JOINT, y - JOINT, x + JOINT, y + JOINT]))
            && self.lines.iter().all(|[a, b]| inside_part(&corners, *a, *b).is_none())
    }
}

/// True if a text of these bounds keeps clear of an area (left, top, right, bottom both).
pub(super) fn apart([left, top, right, bottom]: [f64; 4], [l, t, r, b]: [f64; 4]) -> bool {
    left > r + AIR || right < l - AIR || top > b + AIR || bottom < t - AIR
}
