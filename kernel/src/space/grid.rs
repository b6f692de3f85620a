//! The positions over which room is asked for: a grid of travels and rack displacements.

use crate::layout::Layout;
use crate::pose::Demand;

/// Travels and rack displacements, mm; each travel is met with each displacement.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    /// The travels, mm.
    pub travels: Vec<f64>,
    /// The rack displacements, mm.
    pub racks: Vec<f64>,
}

/// The travel each way of an axle without stops, mm.
const TRAVEL: f64 = 60.0;

/// Travels and displacements of the usual grid.
const USUAL: [usize; 2] = [13, 11];

impl Grid {
    /// The usual one: from stop to stop, or 60 mm each way, and the rack's whole stroke.
    pub fn usual(layout: &Layout) -> Grid {
        let [rebound, bump] = layout.stops.map_or([TRAVEL; 2], |stops| [stops.rebound, stops.bump]);
        let racks = layout.rack.as_ref().map_or(vec![0.0], |rack| even(-rack.travel, rack.travel, USUAL[1]));
        Grid { travels: even(-rebound, bump, USUAL[0]), racks }
    }

    /// All positions, the rack moving fastest.
    pub fn demands(&self) -> impl Iterator<Item = Demand> + '_ {
        self.travels.iter().flat_map(|&travel| self.racks.iter().map(move |&rack| Demand::new(travel, rack)))
    }

    /// Its travels with the rack at 0, if it has none there: what going straight ahead takes is asked for besides.
    pub fn ahead(&self) -> impl Iterator<Item = Demand> + '_ {
        let lacks = !self.racks.contains(&0.0);
        self.travels.iter().filter(move |_| lacks).map(|&travel| Demand::new(travel, 0.0))
    }
}

/// So many values from one end to the other, at equal distances; to the nanometre.
fn even(from: f64, to: f64, count: usize) -> Vec<f64> {
    let value = |i: usize| from + (to - from) * i as f64 / (count - 1) as f64;
    (0..count).map(|i| (value(i) * 1e9).round() / 1e9).collect()
}
