//! A layout in a position that closes, with its curves; or why it does not close.

use super::curve::Curve;
use super::whole::{self, Along};
use crate::document::{Document, Over};
use kernel::{
    Axle, AxleState, Demand, Layout, Linkage, Load, Member, NoAxle, Part, PointId, Position, Reading, Reason, Snapshot,
    Springing, State, Subject, Unsolved, Vec3, Whole,
};
use std::cell::OnceCell;
use std::rc::Rc;

/// A layout in a position that closes.
pub struct Solved {
    /// The joints at rest.
    pub layout: Layout,
    /// Its equations.
    pub linkage: Linkage,
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
    curves: Curves,
}

/// The curves that somebody has asked for.
#[derive(Default)]
struct Curves {
    over_travel: OnceCell<Curve>,
    over_travel_ahead: OnceCell<Curve>,
    over_rack: OnceCell<Curve>,
    over_rack_level: OnceCell<Curve>,
    over_whole: OnceCell<Vec<(f64, Whole)>>,
}

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
    /// The curves reach as far as the document asks, and at least `reach`.
    pub fn new(document: &Document, reach: f64) -> Result<Solved, Trouble> {
        let layout = &document.layout;
        let axle = Axle::standing_at(layout, document.ride).map_err(|why| Trouble::of(layout, &why))?;
        let axle = Rc::new(axle);
        let linkage = axle.linkage();
        let (travel, rack) = (document.travel, document.rack);
        let whole = document.whole.then(|| whole::now_and_at_rest(document, &axle)).transpose();
        let whole = whole.map_err(|why| trouble(linkage, &why))?;
        // In roll the left wheel stands at a travel of its own.
        let now = match &whole {
            Some([now, _]) => now.axle.sides[0].state.clone(),
            None => axle.state(Demand::new(travel, rack)).map_err(|why| trouble(linkage, &why))?,
        };
        let reach = reach.max(document.reach());
        Ok(Solved {
            whole,
            reach,
            rack,
            along: Along::of(document, reach),
            curves: Curves::default(),
            layout: layout.clone(),
            rest: axle.stands().clone(),
            now,
            linkage: linkage.clone(),
            axle,
        })
    }

    /// Over travel, at the present rack. Curves are solved when somebody asks for them, once for this state.
    pub fn over_travel(&self) -> &Curve {
        self.curves.over_travel.get_or_init(|| self.along_travel(self.rack))
    }

    /// Over rack, at the present travel; empty for an unsteered axle.
    pub fn over_rack(&self) -> &Curve {
        self.curves.over_rack.get_or_init(|| self.along_rack(self.now.travel))
    }

    /// One wheel's curve at the present position, and the same with the other coordinate of the position at 0.
    pub fn curve_pair(&self, over: Over) -> [&Curve; 2] {
        match (over, self.rack) {
            (Over::Steering, _) => [self.over_rack(), self.curves.over_rack_level.get_or_init(|| self.along_rack(0.0))],
            (_, 0.0) => [self.over_travel(); 2],
            _ => [self.over_travel(), self.curves.over_travel_ahead.get_or_init(|| self.along_travel(0.0))],
        }
    }

    /// The whole axle over what the curves run over, where they need it.
    pub fn over_whole(&self) -> &[(f64, Whole)] {
        self.curves.over_whole.get_or_init(|| self.along.solve(&self.axle))
    }

    fn along_travel(&self, rack: f64) -> Curve {
        Curve::along(&self.linkage, self.reach, move |travel| Demand::new(travel, rack))
    }

    fn along_rack(&self, travel: f64) -> Curve {
        match &self.layout.rack {
            Some(gear) => Curve::along(&self.linkage, gear.travel, move |rack| Demand::new(travel, rack)),
            None => Curve::default(),
        }
    }

    /// Roll of the body, degrees, with the wheels at two travels; the error is a sentence.
    pub fn standing(&self, travels: [f64; 2], rack: f64) -> Result<f64, String> {
        let axle = AxleState::at(&self.axle, travels, rack, &self.axle.at_rest());
        axle.map(|axle| axle.roll).map_err(|why| sentence_case(&why.to_string()))
    }

    /// The spring that carries the standing vehicle where the car stands.
    pub fn springing(&self) -> Option<Springing> {
        Springing::of(&self.axle)
    }

    /// The travel, mm, at which the springs hold the front axle of a car braking with so many g.
    pub fn dive(&self, braking: f64) -> Option<f64> {
        let load = Load::braking(&self.layout.vehicle(), braking);
        self.springing()?.settles(&self.linkage, &load, &self.rest)
    }

    /// One wheel of this axle, to be read.
    pub fn alone<'a>(&'a self, wheel: &'a State) -> Snapshot<'a> {
        Snapshot::alone(&self.axle, wheel)
    }

    /// What is read now and where the car stands: of both wheels where both are shown.
    pub fn now_and_at_rest(&self) -> [Snapshot<'_>; 2] {
        match &self.whole {
            Some(both) => both.each_ref().map(Snapshot::both),
            None => [&self.now, &self.rest].map(|wheel| self.alone(wheel)),
        }
    }

    /// The value of a reading now.
    pub fn value(&self, reading: &Reading) -> Option<f64> {
        (reading.value)(&self.now_and_at_rest()[0])
    }

    /// Least and greatest of a reading: of one wheel's over travel, of the whole axle's along its curves.
    pub fn range(&self, reading: &Reading) -> Option<(f64, f64)> {
        let values: Vec<Option<f64>> = match reading.subject() {
            Subject::Wheel => {
                self.over_travel().points.iter().map(|(_, state)| (reading.value)(&self.alone(state))).collect()
            }
            Subject::Axle => {
                self.over_whole().iter().map(|(_, whole)| (reading.value)(&Snapshot::both(whole))).collect()
            }
        };
        let values = values.into_iter().flatten().filter(|value| value.is_finite());
        values.fold(None, |range, v| match range {
            None => Some((v, v)),
            Some((least, most)) => Some((f64::min(least, v), f64::max(most, v))),
        })
    }

    /// Where a point of the layout is now, mm.
    pub fn place(&self, id: PointId) -> Option<Vec3> {
        let Position { pose, rack } = self.now.position;
        Some(self.linkage.place(&pose, rack, id, self.layout.point(id)?))
    }
}

impl Trouble {
    /// Why a layout is no axle.
    fn of(layout: &Layout, why: &NoAxle) -> Trouble {
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
    Trouble { sentence: sentence_case(&why.to_string()), joint: None, member }
}

/// The kernel's sentence may begin with a reading; on the page it begins a sentence.
fn sentence_case(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| [first.to_ascii_uppercase()].into_iter().chain(letters).collect())
}
