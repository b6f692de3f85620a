//! Everything that is solved for a document: the state at rest and now, and the curves. Keeps the last good one. Long because
//! a joint under the hand is solved for as well.

mod whole;

use crate::demos;
use crate::document::{Document, Quantity};
use crate::drawing::Axle;
use crate::loaded::Loaded;
use kernel::{
    AxleState, Demand, Layout, Linkage, Load, Member, PointId, Position, Reason, Springing, State, Unsolved, Vec3,
    Whole, at_rest, solve, sweep,
};
use nalgebra::Matrix3;

/// Curves run over at least this much travel each way, mm.
pub const TRAVEL: f64 = 60.0;

/// Curves run over this much roll each way, and it can be asked for, degrees.
pub const ROLL: f64 = 5.0;

/// The travel and rack that can be asked for on the page, each way, mm.
pub const MOST_TRAVEL: f64 = 200.0;

/// Steps from the middle of a curve to either end.
const STEPS: i32 = 30;

/// Newton steps that bring a joint under the pointer; two or three are usual.
const MOST_CORRECTIONS: usize = 8;

/// A joint this near the pointer is under it, mm: less than the hundredth that is kept.
const CLOSE: f64 = 0.002;

/// Step of the differences that this takes, mm: far above the solver's noise, far below any curvature.
const STEP: f64 = 1e-3;

/// A document, solved.
pub struct Study {
    /// The last layout and position that could be assembled.
    pub good: Solved,
    /// What does not close now, if `good` is not the present document.
    pub trouble: Option<Trouble>,
    /// The axle laid over it, in the same position; `None` without one, or where it can't get there.
    pub compared: Option<Box<Solved>>,
    /// What the good one carries, if a load is shown.
    pub loaded: Option<Loaded>,
}

/// A layout in a position that closes.
pub struct Solved {
    /// The joints at rest.
    pub layout: Layout,
    /// Its equations.
    pub linkage: Linkage,
    /// The state at the height the car stands at, wheels ahead.
    pub rest: State,
    /// The state now.
    pub now: State,
    /// Over travel, at the present rack.
    pub over_travel: Curve,
    /// Over travel, rack at 0.
    pub over_travel_ahead: Curve,
    /// Over rack, at the present travel; empty for an unsteered axle.
    pub over_rack: Curve,
    /// Over rack, travel 0.
    pub over_rack_at_rest: Curve,
    /// The whole axle now and at rest, if it is shown.
    pub whole: Option<[Whole; 2]>,
    /// The whole axle over what the curves run over, where they need it.
    pub over_whole: Vec<(f64, Whole)>,
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

/// States along a sweep, in order; it ends early where the linkage can't follow.
#[derive(Default)]
pub struct Curve {
    /// Abscissa (mm of travel or rack) and state.
    pub points: Vec<(f64, State)>,
    /// How far it was asked to go each way.
    pub reach: f64,
}

impl Curve {
    /// From the middle out to both ends, so that a curve that breaks off on one side keeps the other. `stand` is the contact
    /// point's shift where the car stands.
    fn new(linkage: &Linkage, reach: f64, stand: Vec3, demand: impl Fn(f64) -> Demand) -> Curve {
        let side = |reach: f64| {
            let at: Vec<f64> = (0..=STEPS).map(|i| reach * f64::from(i) / f64::from(STEPS)).collect();
            let solved = sweep(linkage, at.iter().map(|at| demand(*at)));
            let connected = solved.map_while(|solved| solved.ok().filter(|solved| solved.connected));
            let state = |(at, solved): (&f64, _)| {
                let mut state = State::read(linkage, &solved);
                state.contact_shift -= stand;
                (*at, state)
            };
            at.iter().zip(connected).map(state).collect::<Vec<_>>()
        };
        // Both sides begin in the middle.
        let mut points: Vec<_> = side(-reach).into_iter().skip(1).rev().collect();
        points.extend(side(reach));
        Curve { points, reach }
    }

    /// Least and greatest of a reading along the curve.
    pub fn range(&self, value: fn(&State) -> Option<f64>) -> Option<(f64, f64)> {
        let values = self.points.iter().filter_map(|(_, state)| value(state)).filter(|v| v.is_finite());
        values.fold(None, |range, v| match range {
            None => Some((v, v)),
            Some((least, most)) => Some((f64::min(least, v), f64::max(most, v))),
        })
    }
}

impl Solved {
    /// The curves reach as far as the document asks, and at least `reach`.
    fn new(document: &Document, reach: f64) -> Result<Solved, Trouble> {
        let layout = &document.layout;
        let linkage = Linkage::new(layout).map_err(|problems| {
            let sentences: Vec<String> = problems.iter().map(ToString::to_string).collect();
            Trouble { sentence: sentences.join(" "), joint: None, member: None }
        })?;
        let rest = Position { pose: linkage.rest(), rack: 0.0 };
        let at = |demand| State::solve(&linkage, demand, &rest).map_err(|why| trouble(&linkage, &why));
        let (travel, rack) = (document.travel, document.rack);
        let mut standing = at(Demand::new(document.ride, 0.0))?;
        let whole = document.whole.then(|| whole::now_and_at_rest(document, &linkage, &standing)).transpose();
        let whole = whole.map_err(|why| trouble(&linkage, &why))?;
        // In roll the left wheel stands at a travel of its own.
        let mut now = match &whole {
            Some([now, _]) => now.axle.sides[0].state.clone(),
            None => at(Demand::new(travel, rack))?,
        };
        let reach = reach.max(document.reach());
        let over_whole = whole::along(document, &linkage, &standing, reach);
        // Track and wheelbase change count from where the car stands.
        let stand = standing.contact_shift;
        standing.contact_shift -= stand;
        now.contact_shift -= stand;
        let over_travel = |rack| Curve::new(&linkage, reach, stand, move |travel| Demand::new(travel, rack));
        let over_rack = |travel| match &layout.rack {
            Some(gear) => Curve::new(&linkage, gear.travel, stand, move |rack| Demand::new(travel, rack)),
            None => Curve::default(),
        };
        Ok(Solved {
            whole,
            over_whole,
            over_travel: over_travel(rack),
            over_travel_ahead: over_travel(0.0),
            over_rack: over_rack(now.travel),
            over_rack_at_rest: over_rack(0.0),
            layout: layout.clone(),
            rest: standing,
            now,
            linkage,
        })
    }

    /// What is drawn of it.
    pub fn axle(&self) -> Axle<'_> {
        Axle { layout: &self.layout, linkage: &self.linkage, rest: &self.rest, now: &self.now }
    }

    /// Roll of the body, degrees, with the wheels at two travels; the error is a sentence.
    pub fn standing(&self, travels: [f64; 2], rack: f64) -> Result<f64, String> {
        let axle = AxleState::at(&self.linkage, travels, rack, &at_rest(&self.linkage));
        axle.map(|axle| axle.roll).map_err(|why| sentence_case(&why.to_string()))
    }

    /// The spring that carries the standing vehicle where the car stands.
    pub fn springing(&self) -> Option<Springing> {
        Springing::of(&self.layout, &self.rest)
    }

    /// The travel, mm, at which the springs hold the front axle of a car braking with so many g.
    pub fn dive(&self, braking: f64) -> Option<f64> {
        let load = Load::braking(&self.layout.vehicle(), braking);
        self.springing()?.settles(&self.linkage, &load, &self.rest)
    }

    /// The value of a quantity now.
    pub fn value(&self, quantity: Quantity) -> Option<f64> {
        match quantity {
            Quantity::Wheel(reading) => (reading.value)(&self.now),
            Quantity::Axle(reading) => self.whole.as_ref().and_then(|[now, _]| (reading.value)(now)),
        }
    }

    /// Where a point of the layout is now, mm.
    pub fn place(&self, id: PointId) -> Option<Vec3> {
        let Position { pose, rack } = self.now.position;
        Some(self.linkage.place(&pose, rack, id, self.layout.point(id)?))
    }
}

/// The compared axle at the document's travel and, as far as its stroke goes, rack.
fn laid_over(document: &Document, reach: f64) -> Option<Box<Solved>> {
    let layout = document.compared.clone()?;
    let mut there = Document { layout, compared: None, ..document.clone() };
    there.rack = document.rack.clamp(-there.rack_travel(), there.rack_travel());
    Solved::new(&there, reach).ok().map(Box::new)
}

fn trouble(linkage: &Linkage, why: &Unsolved) -> Trouble {
    let named = |name: &str| linkage.rows.iter().find(|row| row.name == name).map(|row| row.member);
    let member = match &why.reason {
        Reason::CannotReach { name, .. } => named(name),
        Reason::Singular(names) | Reason::SingularAtRest(names) => names.first().and_then(|name| named(name)),
        _ => None,
    };
    Trouble { sentence: sentence_case(&why.to_string()), joint: None, member }
}

/// The kernel's sentence may begin with a quantity; on the page it begins a sentence.
fn sentence_case(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| [first.to_ascii_uppercase()].into_iter().chain(letters).collect())
}

impl Study {
    /// The study of a document; if it can't be assembled, of the first demo, with the trouble said.
    pub fn new(document: &Document) -> Study {
        let good = Solved::new(&Document::of(demos::first()), TRAVEL).unwrap_or_else(|trouble| {
            // The embedded demos are tested to solve; a build in which one does not must not start.
            panic!("the first demo does not solve: {}", trouble.sentence)
        });
        let mut study = Study { good, trouble: None, compared: None, loaded: None };
        study.update(document, None, TRAVEL);
        study
    }

    /// Solves a changed document. If it does not close, what closed last stays. `moved` is the joint that changed, if one did; the
    /// curves reach `reach` at least.
    pub fn update(&mut self, document: &Document, moved: Option<PointId>, reach: f64) {
        match Solved::new(document, reach) {
            Ok(good) => {
                let loaded = Loaded::of(&good, document);
                *self = Study { compared: laid_over(document, reach), loaded, good, trouble: None };
            }
            Err(trouble) => {
                let joint = moved.and_then(|id| {
                    let at_rest = document.layout.point(id)?;
                    Some((id, self.shown(id, at_rest)?)).filter(|(_, at)| at.iter().all(|x| x.is_finite()))
                });
                self.trouble = Some(Trouble { joint, ..trouble });
            }
        }
    }

    /// Where the drawing shows a point with these rest coordinates, in the pose that closed last.
    fn shown(&self, id: PointId, at_rest: Vec3) -> Option<Vec3> {
        let Solved { linkage, now, .. } = &self.good;
        match id {
            // The foot follows its member; near enough to what it did at its old place.
            PointId::SpringFoot => Some(at_rest - self.good.layout.point(id)? + self.good.place(id)?),
            _ => Some(linkage.place(&now.position.pose, now.position.rack, id, at_rest)),
        }
    }

    /// The rest coordinates that bring a point to `target` on the drawing, in the document's position. A joint on the
    /// carrier changes its member's length, so the pose answers: Newton's method on the three coordinates.
    /// Where the linkage can't follow, the pose that closed last stands in.
    pub fn rest_point(&self, document: &Document, id: PointId, target: Vec3) -> Option<Vec3> {
        let start = document.layout.point(id)?;
        let movement = target - self.shown(id, start)?;
        let turned = self.good.now.position.pose.r.inverse() * movement;
        let guess = start + if id.on_carrier() { turned } else { movement };
        let mut at_rest = guess;
        for _ in 0..MOST_CORRECTIONS {
            let Some(now) = self.place_if(document, id, at_rest) else { return Some(guess) };
            let miss = target - now;
            if miss.norm() < CLOSE {
                break;
            }
            let column =
                |axis: usize| Some((self.place_if(document, id, at_rest + Vec3::ith(axis, STEP))? - now) / STEP);
            let [Some(x), Some(y), Some(z)] = [0, 1, 2].map(column) else { return Some(guess) };
            at_rest += Matrix3::from_columns(&[x, y, z]).lu().solve(&miss)?;
        }
        Some(at_rest)
    }

    /// The left wheel's travel; in roll, the one it had when the axle closed last.
    fn left_travel(&self, document: &Document) -> f64 {
        if document.whole && document.roll != 0.0 { self.good.now.travel } else { document.travel }
    }

    /// Where a point would be if its rest coordinates were these.
    fn place_if(&self, document: &Document, id: PointId, at_rest: Vec3) -> Option<Vec3> {
        let mut layout = document.layout.clone();
        *layout.point_mut(id)? = at_rest;
        let linkage = Linkage::new(&layout).ok()?;
        let solved =
            solve(&linkage, Demand::new(self.left_travel(document), document.rack), &self.good.now.position).ok()?;
        Some(linkage.place(&solved.position.pose, solved.position.rack, id, at_rest))
    }
}
