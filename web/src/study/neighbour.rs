//! An axle that stands beside the document's own, moved as that is; and its own end, where it can't be moved as far.

use super::solved::{Solved, Trouble};
use crate::document::Document;
use crate::document::place::Place;
use kernel::{Axle, Layout, LeftOrRight};
use std::rc::Rc;

/// An axle where the others are, or as near to it as it goes.
pub struct Neighbour {
    /// What is solved for it.
    pub solved: Solved,
    /// Where it is: its travel as if its car stood where the document's does.
    pub at: Place,
}

/// The way to where an axle ends is halved so often: to a tenth of a mm of 200.
const HALVINGS: u32 = 11;

impl Neighbour {
    /// A layout as far from where its car stands as the document's, at the same rack and roll. Where it can't follow, its travel ends first; where
    /// that does not help, all three, on the straight way from where its car stands. An error for one that can't be assembled at all.
    pub fn new(layout: &Layout, document: &Document) -> Result<Neighbour, Trouble> {
        let axle = Axle::new(layout).map_err(|why| Trouble::of(layout, &why))?;
        let side = if document.whole { LeftOrRight::Left } else { document.side };
        let axle = Rc::new(axle.looking_at(side));
        let mut there = Document { compared: None, ..document.clone() };
        there.stand_in(layout.clone());
        let (wanted, from) = (Place::of(&there), Place { travel: there.ride(), ..Place::default() });
        let solve = |place: Place| {
            let Place { travel, rack, roll } = place;
            Solved::on(axle.clone(), &Document { travel, rack, roll, ..there.clone() }, None)
        };
        let along = |start: Place, part: f64| {
            let mix = |from: f64, to: f64| from + (to - from) * part;
            Place {
                travel: mix(start.travel, wanted.travel),
                rack: mix(start.rack, wanted.rack),
                roll: mix(start.roll, wanted.roll),
            }
        };
        let found = solve(wanted).map(|solved| (solved, wanted)).or_else(|_| {
            let starts = [Place { travel: from.travel, ..wanted }, from];
            let start = starts.into_iter().find(|start| solve(*start).is_ok()).unwrap_or(from);
            let (mut reached, mut beyond) = (0.0, 1.0);
            for _ in 0..HALVINGS {
                let middle = f64::midpoint(reached, beyond);
                if solve(along(start, middle)).is_ok() { reached = middle } else { beyond = middle }
            }
            let end = along(start, reached);
            solve(end).map(|solved| (solved, end))
        });
        let (solved, place) = found?;
        Ok(Neighbour { solved, at: Place { travel: place.travel - from.travel + document.ride(), ..place } })
    }
}
