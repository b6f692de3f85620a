//! State → update: what the page holds, what can happen to it, and what then is. No browser types. Long because everything that can
//! happen stands in one list.

use crate::demos;
use crate::document::{Document, Loads, MOST_ERROR, MOST_PINNED, Over};
use crate::drawing::{Fault, Picture};
use crate::history::History;
use crate::lesson::{Answer, Lesson};
use crate::number::Units;
use crate::story::Shot;
use crate::study::{MOST_TRAVEL, ROLL, Study};
use kernel::{AntiRollBar, Damper, HalfShaft, LIMIT, Layout, PointId, Spring, Stops, Vec3, Vehicle};

/// What can happen.
#[derive(Clone, Debug)]
pub enum Message {
    /// A document takes the place of the present one, with what there is to say about it.
    Open(Box<Document>, Vec<String>),
    /// One of the demos, at the present position.
    Demo(usize),
    /// A joint is dragged to a place on the drawing, mm.
    Drag(PointId, Vec3),
    /// A joint gets new rest coordinates, mm.
    Place(PointId, Vec3),
    /// Points get new rest coordinates, mm, all in one step.
    PlaceAll(Vec<(PointId, Vec3)>),
    /// The joint in hand goes back to where it was when the page, link or file was opened.
    Reset,
    /// Wheel travel, mm.
    Travel(f64),
    /// Rack displacement, mm.
    Rack(f64),
    /// The travel at which the car stands, mm.
    Ride(f64),
    /// Locks these coordinates of a point and frees its others.
    Lock(PointId, [bool; 3]),
    /// How far a point may be off, mm.
    Error(PointId, f64),
    /// What lengths, angles and toe are shown in.
    Show(Units),
    /// What loads the axle and what its arms are.
    Loads(Loads),
    /// The vehicle that the load cases know.
    Vehicle(Vehicle),
    /// The damper in the strut.
    Damper(Damper),
    /// The half-shaft, or none.
    HalfShaft(Option<HalfShaft>),
    /// The anti-roll bar, or none.
    Bar(Option<AntiRollBar>),
    /// The spring, upright or on a rocker.
    Spring(Box<Spring>),
    /// The lesson, prepared or taken away.
    Teach(Option<Box<Lesson>>),
    /// A student's answer.
    Answer(Answer),
    /// The shots of the story.
    Story(Vec<Shot>),
    /// Shows a shot in passing, and which of the story's it is; `None` ends the telling.
    Shot(Option<(usize, Box<Shot>)>),
    /// Lays another axle over the present one, or takes it off.
    Compare(Option<Box<Layout>>),
    /// Lays the axle that the page opened with over the present one.
    CompareStart,
    /// The present axle and the one laid over it change places.
    Swap,
    /// One wheel or the whole axle.
    Whole(bool),
    /// Roll of the body, degrees.
    Roll(f64),
    /// Travel of the left and of the right wheel, mm: mean travel and roll follow.
    Travels(f64, f64),
    /// The axle dives under braking, in g: travel follows, without roll.
    Braking(f64),
    /// Travels at which bump and rebound stops end the way, mm; or none.
    Stops(Option<Stops>),
    /// What is now can be had back by undo, whatever passes after it.
    Mark,
    /// Travel and rack in passing, mm: not a step to undo.
    Pass(f64, f64),
    /// To the height the car stands at, wheels ahead.
    AtRest,
    /// A drag, a run of key presses or a movement begins: everything until [`Message::Release`] is one undo step.
    Hold,
    /// It ends.
    Release,
    /// The joint in hand.
    Select(Option<PointId>),
    /// The joint in hand moves by this much at rest, mm.
    Nudge(Vec3),
    /// Pins a reading to the curves, or takes it off.
    Pin(&'static str),
    /// What the curves run over.
    Over(Over),
    /// The layout's name.
    Rename(String),
    /// What the layout's note says.
    Note(String),
    /// One step back.
    Undo,
    /// One step forward again.
    Redo,
    /// Back to what the link, the file or the demo opened with.
    BackToStart,
    /// Something to tell the user.
    Say(String),
    /// The notice has been read.
    Hush,
}

/// The page's state.
pub struct App {
    /// The present document.
    pub document: Document,
    /// What is solved for it.
    pub study: Study,
    /// The joint in hand.
    pub selected: Option<PointId>,
    /// The shot of the story being told.
    pub telling: Option<usize>,
    /// What there is to say: a link's or a file's faults.
    pub notices: Vec<String>,
    history: History<Document>,
    start: Document,
    step: Step,
}

/// How the next change counts for undo.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Step {
    /// As a step of its own.
    Single,
    /// As the first of a held run.
    Opening,
    /// As part of the step that a held run has begun.
    Part,
}

impl App {
    /// The page on a document, with what there is to say about it.
    pub fn new(document: Document, notices: Vec<String>) -> App {
        let study = Study::new(&document);
        App {
            study,
            selected: None,
            telling: None,
            notices,
            history: History::default(),
            start: document.clone(),
            document,
            step: Step::Single,
        }
    }

    /// True if there is something to undo.
    pub fn can_undo(&self) -> bool {
        self.history.can_undo()
    }

    /// True if there is something to redo.
    pub fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    /// True while a lesson hides a reading.
    pub fn hides(&self, column: &str) -> bool {
        self.document.lesson.as_ref().is_some_and(|lesson| lesson.hides(&self.document.answer, column))
    }

    /// True while a lesson hides anything: then the drawing is not lettered with it either.
    fn quiet(&self) -> bool {
        self.document.lesson.iter().flat_map(|lesson| &lesson.hidden).any(|column| self.hides(column))
    }

    /// What is to be drawn.
    pub fn picture(&self) -> Picture<'_> {
        let good = &self.study.good;
        Picture {
            axle: good.axle(),
            compared: self.study.compared.as_ref().map(|solved| solved.axle()),
            loads: self.study.loaded.as_ref(),
            whole: good.whole.as_ref(),
            path: if self.document.over == Over::Roll { &good.over_whole } else { &[] },
            pinned: &self.document.pinned,
            quiet: self.quiet(),
            caption: self
                .telling
                .and_then(|at| Some(self.document.story.get(at)?.caption.as_str()))
                .unwrap_or_default(),
            selected: self.selected,
            locks: &self.document.locks,
            units: self.document.units,
            fault: self.study.trouble.as_ref().map(|trouble| Fault { joint: trouble.joint, member: trouble.member }),
        }
    }

    /// Lets a message take effect.
    pub fn update(&mut self, message: Message) {
        match message {
            Message::Hold => self.step = Step::Opening,
            Message::Release => self.step = Step::Single,
            Message::Select(id) => self.selected = id,
            Message::Say(sentence) => self.notices = vec![sentence],
            Message::Hush => self.notices.clear(),
            Message::Undo => self.walk(History::undo),
            Message::Redo => self.walk(History::redo),
            Message::Drag(id, target) => {
                if let Some(at_rest) = self.study.rest_point(&self.document, id, target) {
                    self.place(id, at_rest);
                }
            }
            Message::Place(id, at_rest) => self.place(id, at_rest),
            Message::PlaceAll(points) => {
                self.update(Message::Hold);
                points.into_iter().for_each(|(id, at_rest)| self.place(id, at_rest));
                self.update(Message::Release);
            }
            Message::Reset => {
                if let Some((id, at)) = self.selected.and_then(|id| Some((id, self.start.layout.point(id)?))) {
                    self.place(id, at);
                }
            }
            Message::Nudge(by) => {
                if let Some((id, at)) = self.selected.and_then(|id| Some((id, self.document.layout.point(id)?))) {
                    self.place(id, at + by);
                }
            }
            Message::Open(document, notices) => {
                self.notices = notices;
                self.open(*document);
            }
            Message::Demo(index) => {
                if let Some(layout) = demos::layout(index) {
                    // The axle is another; the position and everything it is looked at with stay. A lesson ends.
                    let fresh = Document::of(layout);
                    let rack = self.document.rack.clamp(-fresh.rack_travel(), fresh.rack_travel());
                    let Document { layout, locks, errors, lesson, answer, .. } = fresh;
                    self.notices.clear();
                    self.open(Document { layout, rack, locks, errors, lesson, answer, ..self.document.clone() });
                }
            }
            Message::BackToStart => self.open(self.start.clone()),
            Message::Travel(travel) => self.change(|document| document.travel = within(travel, MOST_TRAVEL)),
            Message::Rack(rack) => self.change(|document| document.rack = within(rack, document.rack_travel())),
            Message::Ride(ride) => self.change(|document| document.ride = within(ride, MOST_TRAVEL)),
            Message::Lock(id, axes) => self.change(|document| document.lock(id, axes)),
            Message::Error(id, error) => {
                self.change(|document| document.set_error(id, within(error, MOST_ERROR).abs()))
            }
            Message::Show(units) => self.change(|document| document.units = units),
            Message::Loads(loads) => self.change(|document| document.loads = loads),
            Message::Vehicle(vehicle) => self.change(|document| document.layout.vehicle = Some(vehicle)),
            Message::Damper(damper) => self.change(|document| document.layout.damper = Some(damper)),
            Message::HalfShaft(shaft) => self.change(|document| document.layout.half_shaft = shaft),
            Message::Bar(bar) => self.change(|document| document.layout.anti_roll_bar = bar),
            Message::Spring(spring) => self.change(|document| document.layout.spring = *spring),
            Message::Teach(lesson) => self.change(|document| document.lesson = lesson.map(|lesson| *lesson)),
            Message::Answer(answer) => self.change(|document| document.answer = answer),
            Message::Story(shots) => self.change(|document| document.story = shots),
            Message::Shot(None) => self.telling = None,
            Message::Shot(Some((at, shot))) => {
                self.telling = Some(at);
                self.selected = shot.points_at.filter(|id| shot.layout.point(*id).is_some());
                let Shot { layout, travel, rack, pinned, .. } = *shot;
                (self.document.layout, self.document.pinned) = (layout, pinned);
                let rack = within(rack, self.document.rack_travel());
                (self.document.travel, self.document.rack) = (within(travel, MOST_TRAVEL), rack);
                self.study.update(&self.document, None);
            }
            Message::Compare(layout) => self.compare(layout.map(|layout| *layout)),
            Message::CompareStart => self.compare(Some(self.start.layout.clone())),
            Message::Swap => {
                if let Some(compared) = self.document.compared.clone() {
                    self.change(|document| {
                        document.compared = Some(std::mem::replace(&mut document.layout, compared));
                        document.rack = document.rack.clamp(-document.rack_travel(), document.rack_travel());
                    });
                }
            }
            Message::Whole(whole) => self.change(|document| document.whole = whole),
            Message::Roll(roll) => self.change(|document| document.roll = fine(roll, ROLL)),
            Message::Travels(left, right) => {
                let axle = self.study.good.standing([left, right], self.document.rack);
                match axle {
                    Ok(roll) if roll.abs() <= ROLL => self.change(|document| {
                        document.travel = within(f64::midpoint(left, right), MOST_TRAVEL);
                        document.roll = fine(roll, ROLL);
                    }),
                    Ok(roll) => {
                        self.notices =
                            vec![format!("These travels roll the body by {roll:.1}°; up to {ROLL}° are shown.")];
                    }
                    Err(sentence) => self.notices = vec![sentence],
                }
            }
            Message::Braking(braking) => match self.study.good.dive(braking) {
                Some(travel) if travel.abs() <= MOST_TRAVEL => self.change(|document| {
                    (document.travel, document.roll) = (within(travel, MOST_TRAVEL), 0.0);
                }),
                _ => {
                    self.notices = vec![format!(
                        "Braking with {braking} g brings the springs to no height within {MOST_TRAVEL} mm."
                    )];
                }
            },
            Message::Stops(stops) => self.change(|document| document.layout.stops = stops),
            Message::Mark => self.history.push(self.document.clone()),
            Message::Pass(travel, rack) => {
                let rack = within(rack, self.document.rack_travel());
                (self.document.travel, self.document.rack) = (within(travel, MOST_TRAVEL), rack);
                self.study.update(&self.document, None);
            }
            Message::AtRest => {
                self.change(|document| (document.travel, document.rack, document.roll) = (document.ride, 0.0, 0.0))
            }
            Message::Rename(name) => self.change(|document| document.layout.name = name.chars().take(120).collect()),
            Message::Note(note) => self.change(|document| document.layout.note = note.chars().take(500).collect()),
            Message::Over(over) => self.change(|document| document.over = over),
            Message::Pin(column) => self.change(|document| pin(&mut document.pinned, column)),
        }
    }

    /// Puts a point at rest coordinates, to the hundredth of a mm that a link carries; locked ones stay.
    fn place(&mut self, id: PointId, at_rest: Vec3) {
        if !at_rest.iter().all(|x| x.is_finite()) {
            return;
        }
        let ranges = self.ranges(id);
        let locked = ranges.map(|range| range.is_none());
        if locked == [true; 3] {
            self.selected = Some(id);
            let lesson = self.document.lesson.as_ref().is_some_and(Lesson::sealed);
            let why = if lesson { "stays in this lesson" } else { "is locked; free it under Points" };
            self.notices = vec![format!("The {} {why}.", id.name())];
            return;
        }
        self.selected = Some(id);
        self.change_at(Some(id), |document| {
            if let Some(point) = document.layout.point_mut(id) {
                for (axis, range) in ranges.into_iter().enumerate() {
                    if let Some([least, most]) = range {
                        point[axis] = ((at_rest[axis] * 100.0).round() / 100.0).clamp(least, most);
                    }
                }
            }
        });
    }

    /// The range of each coordinate of a point; `None` where a lock or a lesson keeps it.
    fn ranges(&self, id: PointId) -> [Option<[f64; 2]>; 3] {
        let locked = self.document.locked(id);
        let lesson = self.document.lesson.as_ref().filter(|lesson| lesson.sealed());
        std::array::from_fn(|axis| {
            let range = lesson.map_or(Some([-LIMIT, LIMIT]), |lesson| lesson.range(id, axis));
            range.filter(|_| !locked[axis])
        })
    }

    /// Lays a layout over the present one; one that has problems is said and left.
    fn compare(&mut self, layout: Option<Layout>) {
        let problems: Vec<String> =
            layout.iter().flat_map(|l| kernel::validate(l).into_iter().map(|p| p.to_string())).collect();
        if problems.is_empty() {
            self.change(|document| document.compared = layout);
        } else {
            self.notices = problems;
        }
    }

    /// Opens another document; the one before can be had back by undo.
    fn open(&mut self, document: Document) {
        self.start = document.clone();
        self.selected = self.selected.filter(|id| document.layout.point(*id).is_some());
        self.change(|present| *present = document);
    }

    /// Changes the document: one undo step, unless it is part of a held one.
    fn change(&mut self, change: impl FnOnce(&mut Document)) {
        self.change_at(None, change);
    }

    /// The same, at a joint that the study can point to if the linkage can't follow.
    fn change_at(&mut self, moved: Option<PointId>, change: impl FnOnce(&mut Document)) {
        let before = self.document.clone();
        change(&mut self.document);
        if self.document == before {
            return;
        }
        if self.step != Step::Part {
            self.history.push(before);
        }
        if self.step == Step::Opening {
            self.step = Step::Part;
        }
        self.study.update(&self.document, moved);
    }

    fn walk(&mut self, step: fn(&mut History<Document>, Document) -> Option<Document>) {
        if let Some(document) = step(&mut self.history, self.document.clone()) {
            self.document = document;
            self.selected = self.selected.filter(|id| self.document.layout.point(*id).is_some());
            self.study.update(&self.document, None);
        }
    }
}

/// A position to the hundredth of a mm that a link carries, within ±`most`; what is not a number is 0.
fn within(value: f64, most: f64) -> f64 {
    if value.is_finite() { (value * 100.0).round() / 100.0 } else { 0.0 }.clamp(-most, most)
}

/// An angle to the ten-thousandth of a degree, within ±`most`; what is not a number is 0.
fn fine(value: f64, most: f64) -> f64 {
    if value.is_finite() { (value * 1e4).round() / 1e4 } else { 0.0 }.clamp(-most, most)
}

/// Pins a reading, or takes it off; the oldest makes room.
fn pin(pinned: &mut Vec<&'static str>, column: &'static str) {
    if let Some(at) = pinned.iter().position(|c| *c == column) {
        pinned.remove(at);
    } else {
        pinned.push(column);
        if pinned.len() > MOST_PINNED {
            pinned.remove(0);
        }
    }
}
