//! Lettering without collisions: higher ranks take their place first, a lower one that finds none is left out.

use super::ink::Ink;
use super::scene::{Fill, P, Pen, Stroke, Text};

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
    waiting: Vec<(Rank, Text, Option<P>)>,
    taken: Vec<[f64; 4]>,
    joints: Vec<P>,
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
        Labels { min, max, waiting: Vec::new(), taken: Vec::new(), joints: Vec::new() }
    }

    /// Keeps a box (left, top, right, bottom) free of lettering.
    pub fn keep_out(&mut self, area: [f64; 4]) {
        self.taken.push(area);
    }

    /// Keeps names off a joint's symbol.
    pub fn joint(&mut self, at: P) {
        self.joints.push(at);
    }

    /// A text that stands where it stands, or not at all.
    pub fn put(&mut self, rank: Rank, text: Text) {
        if !text.text.is_empty() {
            self.waiting.push((rank, text, None));
        }
    }

    /// A text beside a place, tied to it by a leader that ends in a dot.
    pub fn put_with_leader(&mut self, rank: Rank, text: Text, on: P) {
        self.waiting.push((rank, text, Some(on)));
    }

    /// Letters what finds a place.
    pub fn letter(mut self, pen: &mut Pen) {
        self.waiting.sort_by_key(|(rank, ..)| *rank);
        let mut taken = std::mem::take(&mut self.taken);
        for (rank, text, on) in std::mem::take(&mut self.waiting) {
            let places = match on {
                None => vec![text],
                Some([x, y]) => TRIES.iter().map(|[dx, dy]| Text { at: [x + dx, y + dy], ..text.clone() }).collect(),
            };
            let Some(text) = places.into_iter().find(|text| self.free(rank, text, &taken)) else { continue };
            if let Some(on) = on {
                let elbow = [text.at[0] + 4.0, text.at[1] - 4.0];
                pen.line(&[elbow, on], Stroke::narrow(Ink::Ink2));
                pen.disc(on, 1.8, Some(Fill::solid(Ink::Ink)), None);
            }
            taken.push(text.bounds());
            pen.text(text);
        }
    }

    /// True if a text lies wholly inside the view.
    pub fn holds(&self, text: &Text) -> bool {
        let [left, top, right, bottom] = text.bounds();
        left >= self.min[0] && right <= self.max[0] && top >= self.min[1] && bottom <= self.max[1]
    }

    fn free(&self, rank: Rank, text: &Text, taken: &[[f64; 4]]) -> bool {
        let [left, top, right, bottom] = text.bounds();
        let apart = |[l, t, r, b]: &[f64; 4]| left > r + AIR || right < l - AIR || top > b + AIR || bottom < t - AIR;
        let clear = |[x, y]: &P| apart(&[x - JOINT, y - JOINT, x + JOINT, y + JOINT]);
        self.holds(text) && taken.iter().all(apart) && (rank < Rank::Member || self.joints.iter().all(clear))
    }
}
