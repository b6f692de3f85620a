//! An axle: a layout with the equations it implies, left and right, and its state where the car stands. Made once; what loads, ride, both
//! wheels and turning are asked about.

use crate::layout::{Layout, Problem, Vehicle};
use crate::linkage::Linkage;
use crate::pose::{Demand, Position, Unsolved};
use crate::state::State;
use std::fmt;

/// A sound layout that can be assembled where the car stands.
#[derive(Clone, Debug)]
pub struct Axle {
    layout: Layout,
    /// Left and right, each as a left wheel. The right one is the left one's mirror image.
    linkages: [Linkage; 2],
    /// Each wheel, as a left one, at the travel at which the car stands, wheels ahead.
    stands: [State; 2],
}

/// Why there is no axle.
#[derive(Clone, Debug)]
pub enum NoAxle {
    /// Everything that is wrong with the layout.
    Problems(Vec<Problem>),
    /// It can't be assembled where the car stands.
    Unsolved(Unsolved),
}

impl fmt::Display for NoAxle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NoAxle::Problems(problems) => {
                let sentences: Vec<String> = problems.iter().map(ToString::to_string).collect();
                f.write_str(&sentences.join(" "))
            }
            NoAxle::Unsolved(why) => why.fmt(f),
        }
    }
}

impl std::error::Error for NoAxle {}

impl Axle {
    /// The axle of a layout, standing as it is drawn.
    pub fn new(layout: &Layout) -> Result<Axle, NoAxle> {
        Axle::standing_at(layout, 0.0)
    }

    /// The axle of a layout whose car stands at a travel, mm.
    pub fn standing_at(layout: &Layout, travel: f64) -> Result<Axle, NoAxle> {
        let left = Linkage::new(layout).map_err(NoAxle::Problems)?;
        let stands =
            State::solve(&left, Demand::new(travel, 0.0), &Position::at_rest(&left)).map_err(NoAxle::Unsolved)?;
        Ok(Axle { layout: layout.clone(), linkages: [left.clone(), left], stands: [stands.clone(), stands] })
    }

    /// The layout.
    pub fn layout(&self) -> &Layout {
        &self.layout
    }

    /// The vehicle, the default one if the layout gives none.
    pub fn vehicle(&self) -> Vehicle {
        self.layout.vehicle()
    }

    /// The equations of the left wheel.
    pub fn linkage(&self) -> &Linkage {
        &self.linkages[0]
    }

    /// The equations of left and right, each as a left wheel's.
    pub fn linkages(&self) -> &[Linkage; 2] {
        &self.linkages
    }

    /// The left wheel where the car stands, wheels ahead.
    pub fn stands(&self) -> &State {
        &self.stands[0]
    }

    /// The travel at which the car stands, mm.
    pub fn standing_travel(&self) -> f64 {
        self.stands[0].travel
    }

    /// Half the track where the car stands, mm.
    pub fn half_track(&self) -> f64 {
        let stands = self.stands();
        stands.position.pose.w.y + stands.attitude.contact.y
    }

    /// The rest positions of both wheels: where a search begins.
    pub fn at_rest(&self) -> [Position; 2] {
        self.linkages.each_ref().map(Position::at_rest)
    }

    /// The left wheel at a demand.
    pub fn state(&self, demand: Demand) -> Result<State, Unsolved> {
        State::solve(self.linkage(), demand, &Position::at_rest(self.linkage()))
    }

    /// True if it has a rack.
    pub fn steered(&self) -> bool {
        self.layout.rack.is_some()
    }
}
