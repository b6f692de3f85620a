//! A layout in a position that closes, with its curves; or why it does not close.

use super::curve::{Curve, range};
use super::whole::{self, Along};
use crate::document::Document;
use crate::text::sentence::capital;
use kernel::{
    Axle, AxleState, Demand, Known, Layout, LeftOrRight, Linkage, Load, Member, NoAxle, Part, PointId, Position,
    Reading, Reason, Snapshot, Springing, State, Subject, Swing, Unsolved, Vec3, Whole, swing,
};
use std::cell::OnceCell;
use std::rc::Rc;

/// A layout in a position that closes.
pub struct Solved {
    /// The axle, standing where the car stands.
    pub axle: Rc<Axle>,
    /// The state at the height the car stands at, wheels ahead.
    pub rest: State,
    /// The state now.
    pub now: State,
    /// The whole axle now and at rest, if it is shown.
    pub whole: Option<[Whole; 2]>,
    /// How far the curves over travel go each way, mm.
    pub reach: f64,
    /// The rack where the document has it, mm.
    rack: f64,
    along: Along,
    held: bool,
    curves: Curves,
    /// The wheel that is not shown, where it differs from the one that is.
    other: OnceCell<Option<State>>,
    known: Beside,
}

/// What has been asked beside a state.
#[derive(Default)]
struct Beside {
    now: Known,
    rest: Known,
    other: Known,
}

/// The curves that somebody has asked for.
#[derive(Default)]
struct Curves {
    over_travel: OnceCell<Curve>,
    over_travel_ahead: OnceCell<Curve>,
    over_rack: OnceCell<Curve>,
    over_rack_at_rest: OnceCell<Curve>,
    over_whole: OnceCell<Vec<(f64, Whole)>>,
    swings: OnceCell<Vec<Swing>>,
}

/// Steps of the whole axle's curves, each way: half of one wheel's, since each is two wheels and more; and while a hand holds something.
const WHOLE_STEPS: [i32; 2] = [15, 6];

/// Steps of travel and of rack, each way, between which the joints' greatest angles are sought; and while a hand holds something. The greatest
/// are nearly always at the ends.
const SWING_STEPS: [i32; 2] = [6, 2];

/// Of so many states along a curve one is swept, since each takes about ten poses; and while a hand holds something.
const RIG_EVERY: [usize; 2] = [2, 5];

/// Why the present document is not drawn solved.
#[derive(Clone, Debug, PartialEq)]
pub struct Trouble {
    /// A sentence for the user.
    pub sentence: String,
    /// The joint that was moved last, and where its place on the drawing now is.
    pub joint: Option<(PointId, Vec3)>,
    /// The member that can't reach, where one can be named.
    pub member: Option<Member>,
}

impl Solved {
    /// Curves reach as far as the document asks. While a hand holds something they reach at least `held`, and are solved in coarser steps where
    /// each takes long.
    pub fn new(document: &Document, held: Option<f64>) -> Result<Solved, Trouble> {
        let layout = &document.layout;
        let axle = Axle::new(layout).map_err(|why| Trouble::of(layout, &why))?;
        // Both wheels are told from the left one.
        let side = if document.whole { LeftOrRight::Left } else { document.side };
        Solved::on(Rc::new(axle.looking_at(side)), document, held)
    }

    /// The same on an axle that is built already.
    pub fn on(axle: Rc<Axle>, document: &Document, held: Option<f64>) -> Result<Solved, Trouble> {
        let linkage = axle.linkage();
        let (travel, rack) = (document.travel, document.rack);
        let whole = document.whole.then(|| whole::now_and_at_rest(document, &axle)).transpose();
        let whole = whole.map_err(|why| trouble(linkage, &why))?;
        // In roll the left wheel stands at a travel of its own.
        let now = match &whole {
            Some([now, _]) => now.axle.sides[0].state.clone(),
            None => axle.state(Demand::new(travel, rack)).map_err(|why| trouble(linkage, &why))?,
        };
        let reach = document.reach().max(held.unwrap_or_default());
        Ok(Solved {
            whole,
            reach,
            rack,
            along: Along::of(document, reach),
            held: held.is_some(),
            curves: Curves::default(),
            other: OnceCell::new(),
            known: Beside::default(),
            rest: axle.stands().clone(),
            now,
            axle,
        })
    }

    /// The parts of the wheel shown as they are built, drawn at the design's rest.
    pub fn layout(&self) -> &Layout {
        self.axle.built()
    }

    /// Its equations.
    pub fn linkage(&self) -> &Linkage {
        self.axle.linkage()
    }

    /// Over travel, at the present rack. Curves are solved when somebody asks for them, once for this state.
    pub fn over_travel(&self) -> &Curve {
        self.curves.over_travel.get_or_init(|| self.along_travel(self.rack))
    }

    /// Over travel, rack at 0.
    pub fn over_travel_ahead(&self) -> &Curve {
        match self.rack {
            0.0 => self.over_travel(),
            _ => self.curves.over_travel_ahead.get_or_init(|| self.along_travel(0.0)),
        }
    }

    /// Over rack, at the present travel; empty for an unsteered axle.
    pub fn over_rack(&self) -> &Curve {
        self.curves.over_rack.get_or_init(|| self.along_rack(self.now.travel))
    }

    /// Over rack, travel 0.
    pub fn over_rack_at_rest(&self) -> &Curve {
        self.curves.over_rack_at_rest.get_or_init(|| self.along_rack(0.0))
    }

    /// The whole axle over what the curves run over, where they need it.
    pub fn over_whole(&self) -> &[(f64, Whole)] {
        let solve = |[now, _]: &[Whole; 2]| self.along.solve(now, WHOLE_STEPS[usize::from(self.held)]);
        self.curves.over_whole.get_or_init(|| self.whole.as_ref().map_or(Vec::new(), solve))
    }

    /// The greatest angles of all joints over travel and rack.
    pub fn swings(&self) -> &[Swing] {
        let rack = self.layout().rack.as_ref().map_or(0.0, |gear| gear.travel);
        let steps = SWING_STEPS[usize::from(self.held)];
        self.curves.swings.get_or_init(|| swing(self.linkage(), self.reach, rack, steps))
    }

    /// The hand lets go: what has been solved coarsely is solved anew when it is asked for.
    pub fn let_go(&mut self) {
        if std::mem::take(&mut self.held) {
            (self.curves.over_whole, self.curves.swings) = Default::default();
        }
    }

    fn along_travel(&self, rack: f64) -> Curve {
        Curve::along(self.linkage(), self.reach, move |travel| Demand::new(travel, rack), Known::default)
    }

    fn along_rack(&self, travel: f64) -> Curve {
        match &self.layout().rack {
            Some(gear) => {
                let known = Known::default();
                let demand = move |rack| Demand::new(travel, rack);
                Curve::along(self.linkage(), gear.travel, demand, || known.with_another_rack())
            }
            None => Curve::default(),
        }
    }

    /// Roll of the body, degrees, with the wheels at two travels, mm.
    pub fn standing(&self, travels: [f64; 2], rack: f64) -> Result<f64, Unsolved> {
        let axle = AxleState::at(&self.axle, travels, rack, &self.axle.at_rest());
        axle.map(|axle| axle.roll)
    }

    /// The spring that carries the standing vehicle where the car stands.
    pub fn springing(&self) -> Option<Springing> {
        Springing::of(&self.axle)
    }

    /// The travel, mm, at which the springs hold the front axle of a car braking with so many g.
    pub fn dive(&self, braking: f64) -> Option<f64> {
        let load = Load::braking(&self.axle.vehicle(), braking);
        self.springing()?.settles(self.linkage(), &load, &self.rest)
    }

    /// The wheel shown, in a state of its own, to be read.
    pub fn alone<'a>(&'a self, wheel: &'a State) -> Snapshot<'a> {
        Snapshot::alone(&self.axle, wheel)
    }

    /// The wheel shown along a curve, to be read: for what a rig finds every so many states.
    pub fn places<'a>(&'a self, curve: &'a Curve, of: Subject) -> impl Iterator<Item = (f64, Snapshot<'a>)> {
        let every = if of == Subject::Rig { RIG_EVERY[usize::from(self.held)] } else { 1 };
        let places = curve.points.iter().zip(&curve.known).step_by(every);
        places.map(|((x, state), known)| (*x, self.alone(state).knowing(known)))
    }

    /// What is read now and where the car stands: of both wheels where both are shown.
    pub fn now_and_at_rest(&self) -> [Snapshot<'_>; 2] {
        match &self.whole {
            Some(both) => both.each_ref().map(Snapshot::both),
            None => [(&self.now, &self.known.now), (&self.rest, &self.known.rest)]
                .map(|(wheel, known)| self.alone(wheel).knowing(known)),
        }
    }

    /// The wheel that is not shown, to be read, where it differs from the one that is.
    pub fn other_now(&self) -> Option<Snapshot<'_>> {
        let side = LeftOrRight::BOTH[1 - self.axle.shown().index()];
        Some(Snapshot::either(&self.axle, side, self.other()?).beside(&self.now).knowing(&self.known.other))
    }

    /// The value of a reading now.
    pub fn value(&self, reading: &Reading) -> Option<f64> {
        (reading.value)(&self.now_and_at_rest()[0])
    }

    /// Least and greatest of a reading: of one wheel's over travel, of the whole axle's along its curves.
    pub fn range(&self, reading: &Reading) -> Option<[f64; 2]> {
        let value = |place: Snapshot| (reading.value)(&place);
        match reading.subject() {
            Subject::Axle => range(self.over_whole().iter().filter_map(|(_, whole)| value(Snapshot::both(whole)))),
            of => range(self.places(self.over_travel(), of).filter_map(|(_, place)| value(place))),
        }
    }

    /// The other wheel at the same moment, as a left one; `None` where it is the shown one's mirror image, and where it can't get there.
    pub fn other(&self) -> Option<&State> {
        let solve = || {
            let other = LeftOrRight::BOTH[1 - self.axle.shown().index()];
            // One rack steers both.
            let rack = if self.rack == 0.0 { 0.0 } else { -self.rack };
            match &self.whole {
                Some([now, _]) => Some(now.axle.sides[other.index()].state.clone()),
                None => self.axle.state_of(other, Demand::new(self.now.travel, rack)).ok(),
            }
        };
        self.axle.sides_differ().then(|| self.other.get_or_init(solve).as_ref()).flatten()
    }

    /// Either wheel at the same moment, as a left one; `None` where it can't get there.
    pub fn wheel(&self, side: LeftOrRight) -> Option<State> {
        let shown = self.axle.shown();
        match &self.whole {
            Some([now, _]) => Some(now.axle.sides[side.index()].state.clone()),
            None if side == shown => Some(self.now.clone()),
            // One rack steers both.
            None => self.axle.state_of(side, Demand::new(self.now.travel, -self.rack)).ok(),
        }
    }

    /// Where a point of the layout is now, mm.
    pub fn place(&self, id: PointId) -> Option<Vec3> {
        let Position { pose, rack } = self.now.position;
        Some(self.linkage().place(&pose, rack, id, self.layout().point(id)?))
    }
}

impl Trouble {
    /// Why a layout is no axle.
    pub(super) fn of(layout: &Layout, why: &NoAxle) -> Trouble {
        match why {
            NoAxle::Unsolved(why) if let Ok(linkage) = Linkage::new(layout) => trouble(&linkage, why),
            why => Trouble { sentence: why.to_string(), joint: None, member: None },
        }
    }
}

fn trouble(linkage: &Linkage, why: &Unsolved) -> Trouble {
    let of = |part: &Part| linkage.rows().iter().find(|row| row.part == *part).map(|row| row.member);
    let member = match &why.reason {
        Reason::CannotReach(part, _) => of(part),
        Reason::Singular(parts) | Reason::SingularAtRest(parts) => parts.first().and_then(of),
        _ => None,
    };
    Trouble { sentence: capital(&why.to_string()), joint: None, member }
}
