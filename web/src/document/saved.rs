//! A document: what is saved, shared and undone.

use super::lesson::{Answer, Lesson, mark};
use super::loads::Loads;
use super::papers::Papers;
use super::place::{MOST_TRAVEL, Place, TRAVEL};
use super::series::Series;
use super::story::Shot;
use super::variant::Variant;
use crate::text::number::Units;
use kernel::{Change, LIMIT, Layout, LeftOrRight, PointId, Sides};

/// What is saved, shared and undone.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The axle.
    pub layout: Layout,
    /// The axle laid over it.
    pub compared: Option<Layout>,
    /// The axles that stand beside it, in order, each in a drawing of its own.
    pub beside: Vec<Layout>,
    /// Rise of the wheel centre, mm.
    pub travel: f64,
    /// Rack displacement, mm.
    pub rack: f64,
    /// Points, or coordinates of points, that hands and keys must not move.
    pub locks: Vec<Lock>,
    /// How far a measured point may be off, mm each way along each coordinate; points not named are taken as exact.
    pub errors: Vec<(PointId, f64)>,
    /// Columns of the readings shown as curves, in the order they were pinned.
    pub pinned: Vec<&'static str>,
    /// What the curves run over.
    pub over: Over,
    /// What lengths, angles and toe are shown in.
    pub units: Units,
    /// What loads the axle, and what its arms are taken to be.
    pub loads: Loads,
    /// The shots of a story, in order; empty if this is none.
    pub story: Vec<Shot>,
    /// The lesson, if this is one.
    pub lesson: Option<Lesson>,
    /// What a student has answered.
    pub answer: Answer,
    /// The other exercises of a series, each with its answer, none with others.
    pub series: Series<Document>,
    /// Both wheels are shown, not the left one alone.
    pub whole: bool,
    /// Roll of the body, degrees, positive when it leans to the right; only the whole axle rolls.
    pub roll: f64,
    /// The wheel that is shown where one is; the right one as if it were a left one.
    pub side: LeftOrRight,
    /// What a hand on a joint keeps.
    pub hands: Hands,
    /// Other ways in which the same design is built.
    pub variants: Vec<Variant>,
    /// What was typed beside the axle; files and drafts carry it, links don't.
    pub papers: Papers,
}

/// What a hand on a joint keeps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hands {
    /// The wheel's alignment: the joint's place in the design moves, and lengths with it.
    #[default]
    Design,
    /// Every length: the joint sits elsewhere on its part, and the wheel follows.
    Build,
}

impl Hands {
    /// Every choice with its name in links.
    pub const ALL: [(Hands, &'static str); 2] = [(Hands::Design, "design"), (Hands::Build, "build")];
}

/// Which coordinates of a point are locked: x, y, z.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lock {
    /// The point.
    pub point: PointId,
    /// Its coordinates.
    pub axes: [bool; 3],
}

/// The greatest measuring error a point can have, mm: more is no measurement.
pub const MOST_ERROR: f64 = 50.0;

/// What the curves run over.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Over {
    /// Wheel travel.
    #[default]
    Travel,
    /// Wheel travel, standing upright as the trade's own diagrams have it.
    TravelUpright,
    /// The rack.
    Steering,
    /// Roll of the body; one wheel alone is shown over travel then.
    Roll,
}

impl Over {
    /// Every choice with its name in links.
    pub const ALL: [(Over, &'static str); 4] = [
        (Over::Travel, "travel"),
        (Over::TravelUpright, "upright"),
        (Over::Steering, "steering"),
        (Over::Roll, "roll"),
    ];
}

/// What a first visit has pinned.
const PINNED: [&str; 6] =
    ["camber_deg", "toe_deg", "caster_deg", "kingpin_offset_wheel_centre_mm", "scrub_radius_mm", "brake_lever_arm_mm"];

/// The reach of the curves is a multiple of this, mm.
const ROUND: f64 = 20.0;

/// As many axles can stand beside the document’s own.
pub const MOST_BESIDE: usize = 3;

/// More pinned readings than this make curves too small to read.
pub const MOST_PINNED: usize = 8;

impl Document {
    /// A layout at rest, with the first visit's curves.
    pub fn of(layout: Layout) -> Document {
        Document {
            layout,
            compared: None,
            beside: Vec::new(),
            travel: 0.0,
            rack: 0.0,
            locks: Vec::new(),
            errors: Vec::new(),
            pinned: PINNED.to_vec(),
            over: Over::Travel,
            units: Units::default(),
            loads: Loads::default(),
            story: Vec::new(),
            lesson: None,
            answer: Answer::default(),
            series: Series::default(),
            whole: false,
            roll: 0.0,
            side: LeftOrRight::Left,
            hands: Hands::Design,
            variants: Vec::new(),
            papers: Papers::default(),
        }
    }

    /// True in an exercise, where only what it frees may be changed.
    pub fn sealed(&self) -> bool {
        self.lesson.as_ref().is_some_and(Lesson::sealed)
    }

    /// True in an exercise, or a series of them, to which something has been answered, or of which something has been moved.
    pub fn answered(&self) -> bool {
        let begun = |lesson: &Lesson| self.answer != Answer::default() || mark(&self.layout) != lesson.begin;
        let own = self.lesson.as_ref().is_some_and(|lesson| lesson.sealed() && begun(lesson));
        own || self.series.others().any(Document::answered)
    }

    /// All exercises in order, each alone, and which of them is shown.
    pub fn exercises(&self) -> (Vec<Document>, usize) {
        let alone = Document { series: Series::default(), ..self.clone() };
        self.series.clone().with(alone)
    }

    /// The same series with another of its exercises shown, in the units chosen here and with the name typed here.
    pub fn turned(&self, to: usize) -> Document {
        let (all, _) = self.exercises();
        let Some((shown, series)) = Series::at(all, to) else { return self.clone() };
        let mut answer = shown.answer.clone();
        if answer.by.is_empty() {
            answer.by = self.answer.by.clone();
        }
        Document { series, answer, units: self.units, ..shown }
    }

    /// The same with something done to every exercise of the series.
    pub fn each(mut self, change: &dyn Fn(Document) -> Document) -> Document {
        let Series { before, after } = std::mem::take(&mut self.series);
        let series =
            Series { before: before.into_iter().map(change).collect(), after: after.into_iter().map(change).collect() };
        Document { series, ..change(self) }
    }

    /// The lessons of the series in order.
    pub fn lessons(&self) -> Vec<&Lesson> {
        let all = self.series.before.iter().chain([self]).chain(&self.series.after);
        all.filter_map(|document| document.lesson.as_ref()).collect()
    }

    /// True for the same lessons in the same order, whatever has been answered.
    pub fn same_lessons(&self, other: &Document) -> bool {
        let (own, others) = (self.lessons(), other.lessons());
        own.len() == others.len() && own.iter().zip(others).all(|(own, other)| own.same(other))
    }

    /// Which coordinates of a point are locked.
    pub fn locked(&self, id: PointId) -> [bool; 3] {
        self.locks.iter().find(|lock| lock.point == id).map_or([false; 3], |lock| lock.axes)
    }

    /// Locks these coordinates of a point and frees its others.
    pub fn lock(&mut self, id: PointId, axes: [bool; 3]) {
        self.locks.retain(|lock| lock.point != id);
        if axes != [false; 3] {
            self.locks.push(Lock { point: id, axes });
        }
    }

    /// The range of each coordinate of a point, mm; `None` where a lock or a lesson keeps it.
    pub fn ranges(&self, id: PointId) -> [Option<[f64; 2]>; 3] {
        let locked = self.locked(id);
        let lesson = self.lesson.as_ref().filter(|lesson| lesson.sealed());
        std::array::from_fn(|axis| {
            let range = lesson.map_or(Some([-LIMIT, LIMIT]), |lesson| lesson.range(id, axis));
            range.filter(|_| !locked[axis])
        })
    }

    /// The measuring error of a point, mm.
    pub fn error(&self, id: PointId) -> f64 {
        self.errors.iter().find(|(point, _)| *point == id).map_or(0.0, |(_, error)| *error)
    }

    /// Sets it.
    pub fn set_error(&mut self, id: PointId, error: f64) {
        self.errors.retain(|(point, _)| *point != id);
        if error > 0.0 {
            self.errors.push((id, error));
        }
    }

    /// How far curves and handle go each way, mm of travel: at least 60, as far as the stops and what is shown, in round numbers.
    pub fn reach(&self) -> f64 {
        let stops = self.layout.stops.map_or(0.0, |stops| f64::max(stops.bump, stops.rebound));
        let most = [stops, self.travel.abs(), self.ride().abs()].into_iter().fold(TRAVEL, f64::max);
        ((most / ROUND).ceil() * ROUND).min(MOST_TRAVEL)
    }

    /// The travel, mm, at which the car stands: what *at rest* means on the page. 0 is the layout's own rest.
    pub fn ride(&self) -> f64 {
        self.layout.changes.ride()
    }

    /// Sets it.
    pub fn set_ride(&mut self, travel: f64) {
        self.layout.changes.set(Sides::Both, Change::Ride, travel);
    }

    /// Puts another layout in place of the present one, which is given back: shown as far from where its car stands, and steered as far as its rack
    /// goes.
    pub fn stand_in(&mut self, layout: Layout) -> Layout {
        let before = std::mem::replace(&mut self.layout, layout);
        self.travel = (self.travel + (self.ride() - before.changes.ride())).clamp(-MOST_TRAVEL, MOST_TRAVEL);
        self.rack = self.rack.clamp(-self.rack_travel(), self.rack_travel());
        before
    }

    /// The sides that a change meant for what is shown is of: both where both wheels are, or nothing differs between them and the left is shown.
    pub fn changed_sides(&self) -> Sides {
        let own = |side| self.layout.changes.iter().any(|(of, ..)| of == Sides::One(side));
        let differ = LeftOrRight::BOTH.into_iter().any(own);
        if self.whole || !differ && self.side == LeftOrRight::Left { Sides::Both } else { Sides::One(self.side) }
    }

    /// The stroke of the rack each way, mm; 0 for an unsteered axle, and for a broken layout's negative one.
    pub fn rack_travel(&self) -> f64 {
        self.layout.rack.as_ref().map_or(0.0, |rack| rack.travel.max(0.0))
    }
}

impl Place {
    /// Where a document's axle is shown. One wheel alone does not roll.
    pub fn of(document: &Document) -> Place {
        let roll = if document.whole { document.roll } else { 0.0 };
        Place { travel: document.travel, rack: document.rack, roll }
    }
}
