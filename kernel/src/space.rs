//! Wheel space: where the tyre goes, and what it must not touch.
//!
//! [`Space`] takes one position after another and can be asked at any time: how far the tyre has reached, the litres of its envelope, the envelope's
//! outlines and the depth of its arch, and the least distance between any two pieces. All for one wheel, seen as a left one.

mod capsule;
mod clearance;
mod contour;
mod cuboid;
mod envelope;
mod grid;
mod least;
mod limb;
mod near;
mod outline;
mod piece;
mod pieces;
mod reach;
mod ring;
mod tyre;

pub use clearance::{At, Clearance};
pub use contour::Border;
pub use envelope::{Depth, Envelope};
pub use grid::Grid;
pub use outline::{Seen, outlines};
pub use piece::Piece;
pub use pieces::{Gap, Pieces};
pub use reach::{Extreme, Reach};
pub use tyre::Tyre;

use crate::axle::Axle;
use crate::layout::LeftOrRight;
use crate::pose::{Demand, Guess, Height, Steering};
use crate::state::State;
use clearance::Clearances;

/// What a wheel takes up, and how near its pieces come to each other, over the positions so far.
#[derive(Clone, Debug)]
pub struct Space {
    pieces: Pieces,
    /// The tyre at all positions.
    envelope: Envelope,
    /// The tyre at those with the rack at 0.
    ahead: Envelope,
    reach: Reach,
    clearances: Clearances,
    unreached: Vec<At>,
    /// Where the last search ended.
    guess: Guess,
}

impl Space {
    /// That of one wheel of an axle, before any position.
    pub fn of(axle: &Axle, side: LeftOrRight) -> Space {
        let pieces = Pieces::of(axle, side);
        let guess = Guess::at_rest(pieces.linkage());
        Space {
            pieces,
            envelope: Envelope::default(),
            ahead: Envelope::default(),
            reach: Reach::default(),
            clearances: Clearances::default(),
            unreached: Vec::new(),
            guess,
        }
    }

    /// The same over a grid.
    pub fn over(axle: &Axle, side: LeftOrRight, grid: &Grid) -> Space {
        let mut space = Space::of(axle, side);
        grid.demands().for_each(|demand| space.meet(demand));
        grid.ahead().for_each(|demand| space.meet_ahead(demand));
        space
    }

    /// Takes in the position that meets a demand, or notes that it can't be reached.
    pub fn meet(&mut self, demand: Demand) {
        match State::solve(self.pieces.linkage(), demand, self.guess) {
            Ok(state) => self.add(&state),
            Err(_) => self.unreached.extend(asked(&demand)),
        }
    }

    /// Takes in a position only for what going straight ahead needs.
    pub fn meet_ahead(&mut self, demand: Demand) {
        if let Ok(state) = State::solve(self.pieces.linkage(), demand, self.guess) {
            self.ahead.add(&self.pieces.tyre(&state.position));
        }
    }

    /// Takes in a position.
    pub fn add(&mut self, state: &State) {
        let position = &state.position;
        let at = At { travel: tidy(state.travel), rack: tidy(position.rack) };
        let tyre = self.pieces.tyre(position);
        self.reach.add(at, &tyre);
        self.envelope.add(&tyre);
        if at.rack == 0.0 {
            self.ahead.add(&tyre);
        }
        self.clearances.add(at, &self.pieces.gaps(position));
        self.guess = Guess::from(state);
    }

    /// The wheel and what stands round it.
    pub fn pieces(&self) -> &Pieces {
        &self.pieces
    }

    /// The room that the tyre takes up.
    pub fn envelope(&self) -> &Envelope {
        &self.envelope
    }

    /// How far the tyre reaches.
    pub fn reach(&self) -> &Reach {
        &self.reach
    }

    /// The least distance of each pair of pieces, the least first.
    pub fn clearances(&self) -> Vec<Clearance> {
        self.clearances.sorted()
    }

    /// The positions that could not be reached, mm.
    pub fn unreached(&self) -> &[At] {
        &self.unreached
    }

    /// The litres of the envelope inboard of a plane y = `side`, mm.
    pub fn litres(&self, side: f64) -> f64 {
        self.envelope.litres(side)
    }

    /// What of them steering costs: the same less that of going straight ahead.
    pub fn turning_litres(&self, side: f64) -> f64 {
        self.envelope.litres(side) - self.ahead.litres(side)
    }

    /// The outlines of the envelope in a view, with a margin round the tyre, mm.
    pub fn outlines(&self, seen: Seen, margin: f64) -> Vec<Vec<crate::frame::Vec3>> {
        outlines(self.envelope.tyres(), seen, margin)
    }
}

/// A solved travel as it was asked for: to the nanometre, and no negative nought.
fn tidy(value: f64) -> f64 {
    (value * 1e9).round() / 1e9 + 0.0
}

/// What a demand asks for; `None` of one that does not say travel and rack.
fn asked(demand: &Demand) -> Option<At> {
    match (demand.height, demand.steering) {
        (Height::Travel(travel), Steering::Rack(rack)) => Some(At { travel, rack }),
        _ => None,
    }
}
