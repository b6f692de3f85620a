//! An axle: a layout with the equations it implies, left and right, and its state where the car stands. Made once; what loads, ride, both
//! wheels and turning are asked about.

mod swept;

pub use swept::Swept;

use crate::frame::Vec3;
use crate::layout::{Built, Layout, LeftOrRight, Problem, Vehicle};
use crate::linkage::Linkage;
use crate::pose::{Demand, Guess, Unsolved, settled};
use crate::state::State;
use std::fmt;

/// A sound layout that can be assembled where the car stands.
#[derive(Clone, Debug)]
pub struct Axle {
    layout: Layout,
    /// The parts of left and right as they are built, drawn at the design's rest, each as a left wheel's; `None` where they are the design's.
    built: Option<Box<[Layout; 2]>>,
    /// Left and right, each as a left wheel; mirror images where nothing is changed.
    linkages: [Linkage; 2],
    /// Each wheel, as a left one, at the travel at which the car stands, wheels ahead.
    stands: [State; 2],
    /// Where the design's contact point is when the car stands, from its rest, mm.
    counts_from: Vec3,
    /// The wheel that is looked at where one is.
    shown: LeftOrRight,
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

/// The equations of one wheel of a layout, as it is built, as a left one.
pub fn linkage_of(layout: &Layout, side: LeftOrRight) -> Result<Linkage, NoAxle> {
    let design = Linkage::new(layout).map_err(NoAxle::Problems)?;
    settled(&design, layout, &Built::of(layout, side)).map_err(NoAxle::Unsolved)
}

impl Axle {
    /// The axle of a layout, built with its changes and standing where they say.
    pub fn new(layout: &Layout) -> Result<Axle, NoAxle> {
        Axle::standing_at(layout, layout.changes.ride())
    }

    /// The axle of a layout whose car stands at a travel, mm.
    pub fn standing_at(layout: &Layout, travel: f64) -> Result<Axle, NoAxle> {
        let design = Linkage::new(layout).map_err(NoAxle::Problems)?;
        let stands = |linkage: &Linkage| {
            State::solve(linkage, Demand::new(travel, 0.0), Guess::at_rest(linkage)).map_err(NoAxle::Unsolved)
        };
        let sides = LeftOrRight::BOTH.map(|side| Built::of(layout, side));
        let axle = |linkages: [Linkage; 2], stands, built, counts_from| Axle {
            layout: layout.clone(),
            built,
            linkages,
            stands,
            counts_from,
            shown: LeftOrRight::Left,
        };
        let as_designed = stands(&design);
        let counts_from = as_designed.as_ref().map_or_else(|_| Vec3::zeros(), |state| state.contact_shift);
        if sides.iter().all(Built::is_design) {
            let as_designed = as_designed?;
            return Ok(axle([design.clone(), design], [as_designed.clone(), as_designed], None, counts_from));
        }
        let side = |built: &Built| settled(&design, layout, built).map_err(NoAxle::Unsolved);
        let linkages = [side(&sides[0])?, side(&sides[1])?];
        let both = [stands(&linkages[0])?, stands(&linkages[1])?];
        let built = Box::new(sides.map(|built| built.layout(layout)));
        Ok(axle(linkages, both, Some(built), counts_from))
    }

    /// The same axle, with this wheel looked at where one is.
    pub fn looking_at(self, side: LeftOrRight) -> Axle {
        Axle { shown: side, ..self }
    }

    /// The wheel that is looked at where one is.
    pub fn shown(&self) -> LeftOrRight {
        self.shown
    }

    /// The layout: the design, with its changes beside it.
    pub fn layout(&self) -> &Layout {
        &self.layout
    }

    /// The parts of the wheel looked at as they are built, drawn at the design's rest: what a wheel is read and drawn from.
    pub fn built(&self) -> &Layout {
        self.built_of(self.shown)
    }

    /// The same of either wheel, as a left one.
    pub fn built_of(&self, side: LeftOrRight) -> &Layout {
        self.built.as_ref().map_or(&self.layout, |built| &built[side.index()])
    }

    /// True where left and right are not mirror images.
    pub fn sides_differ(&self) -> bool {
        let [left, right] = &self.linkages;
        self.built.as_ref().is_some_and(|built| left != right || built[0] != built[1])
    }

    /// The vehicle, the default one if the layout gives none.
    pub fn vehicle(&self) -> Vehicle {
        self.layout.vehicle()
    }

    /// The equations of the wheel looked at, as a left one.
    pub fn linkage(&self) -> &Linkage {
        &self.linkages[self.shown.index()]
    }

    /// The equations of left and right, each as a left wheel's.
    pub fn linkages(&self) -> &[Linkage; 2] {
        &self.linkages
    }

    /// The wheel looked at, as a left one, where the car stands, wheels ahead.
    pub fn stands(&self) -> &State {
        &self.stands[self.shown.index()]
    }

    /// Both wheels there, each as a left one.
    pub fn both_stand(&self) -> &[State; 2] {
        &self.stands
    }

    /// From where track and wheelbase change count: where the design's contact point is when the car stands, from the design's rest, mm. So a change
    /// of parts shows, and ride height alone does not.
    pub fn counts_from(&self) -> Vec3 {
        self.counts_from
    }

    /// The travel at which the car stands, mm.
    pub fn standing_travel(&self) -> f64 {
        self.stands[0].travel
    }

    /// Half the track where the car stands, mm.
    pub fn half_track(&self) -> f64 {
        let [left, right] = self.stands.each_ref().map(|stands| stands.position.pose.w.y + stands.attitude.contact.y);
        f64::midpoint(left, right)
    }

    /// Both wheels at rest: where a search begins.
    pub fn at_rest(&self) -> [Guess; 2] {
        self.linkages.each_ref().map(Guess::at_rest)
    }

    /// The wheel looked at, as a left one, at a demand.
    pub fn state(&self, demand: Demand) -> Result<State, Unsolved> {
        self.state_of(self.shown, demand)
    }

    /// Either wheel, as a left one, at a demand.
    pub fn state_of(&self, side: LeftOrRight, demand: Demand) -> Result<State, Unsolved> {
        let linkage = &self.linkages[side.index()];
        State::solve(linkage, demand, Guess::at_rest(linkage))
    }

    /// What a rig's steering sweep to ±`angle`, degrees, finds on either wheel standing at a travel, mm; `None` without a rack, or where it does not
    /// reach so far.
    pub fn swept(&self, side: LeftOrRight, travel: f64, angle: f64) -> Option<Swept> {
        Swept::of(&self.linkages[side.index()], self.layout.rack.as_ref()?, travel, angle)
    }

    /// True if the layout says of some part that it gives way when forces act.
    pub fn gives_way(&self) -> bool {
        !self.layout.stiffness.is_empty() || self.layout.subframe.is_some()
    }

    /// True if it has a rack.
    pub fn steered(&self) -> bool {
        self.layout.rack.is_some()
    }
}
