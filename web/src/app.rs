//! State → update: what the page holds, what can happen to it, and what then is. No browser types. Long because everything that can
//! happen stands in one list.

mod history;
mod message;
mod told;

pub use message::{About, Edit, Hand, Message, Open, Part, Point, Reply, Run, Say, Show, Stand, Step, Tell};
pub use told::Told;

use crate::content::demos;
use crate::document::lesson::{Answer, Lesson, Prediction};
use crate::document::place::{MOST_TRAVEL, ROLL};
use crate::document::story::Shot;
use crate::document::{Document, MOST_ERROR, MOST_PINNED, Over};
use crate::drawing::{Axle, Fault, Picture};
use crate::link;
use crate::study::Study;
use history::History;
use kernel::{Amount, LIMIT, LONGEST_NOTE, Layout, PointId, Vec3};

/// The page's state.
pub struct App {
    /// The present document.
    pub document: Document,
    /// What is solved for it.
    pub study: Study,
    /// The joint in hand.
    pub selected: Option<PointId>,
    /// What a story being told says now.
    pub caption: Option<String>,
    /// What there is to say: a link's or a file's faults.
    pub notices: Vec<String>,
    history: History<Document>,
    start: Document,
    /// While a story is told: the document it is told over, which its end brings back.
    untold: Option<Box<Document>>,
    step: Counts,
}

/// How the next change counts for undo.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Counts {
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
        let study = Study::new(&document, demos::opening);
        App {
            study,
            selected: None,
            caption: None,
            untold: None,
            notices,
            history: History::default(),
            start: document.clone(),
            document,
            step: Counts::Single,
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

    /// What is to be drawn.
    pub fn picture(&self) -> Picture<'_> {
        let good = &self.study.good;
        Picture {
            axle: Axle::of(good),
            compared: self.study.compared.as_ref().map(|solved| Axle::of(solved)),
            loads: self.study.loaded.as_ref(),
            whole: good.whole.as_ref(),
            path: if self.document.over == Over::Roll { good.over_whole() } else { &[] },
            pinned: &self.document.pinned,
            lesson: self.document.lesson.as_ref().map(|lesson| (lesson, &self.document.answer)),
            caption: self.caption.as_deref().unwrap_or_default(),
            selected: self.selected,
            locks: &self.document.locks,
            units: self.document.units,
            fault: self.study.trouble.as_ref().map(|trouble| Fault { joint: trouble.joint, member: trouble.member }),
        }
    }

    /// True if something has been done since the document was opened.
    pub fn edited(&self) -> bool {
        (self.can_undo() || self.document.answer != self.start.answer) && self.document != self.start
    }

    /// True while a story is told.
    pub fn tells(&self) -> bool {
        self.untold.is_some()
    }

    /// Lets a message take effect.
    pub fn update(&mut self, message: impl Into<Message>) {
        let message = message.into();
        if self.tells() && message.ends_a_story() {
            self.end_story();
            // What can be undone of a story is that it was told.
            if matches!(message, Message::Step(_)) {
                return;
            }
        }
        match message {
            Message::Hand(Hand::Hold) => self.step = Counts::Opening,
            Message::Hand(Hand::Release) => self.release(),
            Message::Hand(Hand::Select(id)) => self.selected = id,
            Message::Say(Say::Sentence(sentence)) => self.notices = vec![sentence],
            Message::Say(Say::Nothing) => self.notices.clear(),
            Message::Step(Step::Undo) => self.walk(History::undo),
            Message::Step(Step::Redo) => self.walk(History::redo),
            Message::Hand(Hand::Drag(id, target)) => {
                if let Some(at_rest) = self.study.rest_point(&self.document, id, target) {
                    self.place(id, at_rest);
                }
            }
            Message::Edit(Edit::Point(Point::Place(id, at_rest))) => match self.out_of_range(id, at_rest) {
                Some(sentence) => self.notices = vec![sentence],
                None => self.place(id, at_rest),
            },
            Message::Edit(Edit::Point(Point::PlaceAll(points))) => self.place_all(&points),
            Message::Hand(Hand::Reset) => {
                if let Some((id, at)) = self.selected.and_then(|id| Some((id, self.start.layout.point(id)?))) {
                    self.place(id, at);
                }
            }
            Message::Hand(Hand::Nudge(by)) => {
                if let Some((id, at)) = self.selected.and_then(|id| Some((id, self.document.layout.point(id)?))) {
                    self.place(id, at + by);
                }
            }
            Message::Open(Open::Document(document, notices)) => {
                self.notices = notices;
                self.open(*document);
            }
            Message::Open(Open::Demo(index)) => {
                if let Some(layout) = demos::layout(index) {
                    // The axle is another; the position and everything it is looked at with stay. A lesson ends.
                    let fresh = Document::of(layout);
                    let rack = self.document.rack.clamp(-fresh.rack_travel(), fresh.rack_travel());
                    let Document { layout, locks, errors, lesson, answer, .. } = fresh;
                    self.notices.clear();
                    self.open(Document { layout, rack, locks, errors, lesson, answer, ..self.document.clone() });
                }
            }
            Message::Open(Open::Start) => {
                let mut start = self.start.clone();
                self.keep_answer(&mut start);
                self.open_again(start);
            }
            Message::Edit(Edit::Stand(Stand::Travel(travel))) => {
                self.change(|document| document.travel = within(travel, MOST_TRAVEL))
            }
            Message::Edit(Edit::Stand(Stand::Rack(rack))) => {
                self.change(|document| document.rack = within(rack, document.rack_travel()))
            }
            Message::Edit(Edit::Stand(Stand::Ride(ride))) => {
                self.change(|document| document.ride = within(ride, MOST_TRAVEL))
            }
            Message::Edit(Edit::Point(Point::Lock(id, axes))) => self.change(|document| document.lock(id, axes)),
            Message::Edit(Edit::Point(Point::Error(id, error))) if (0.0..=MOST_ERROR).contains(&error) => {
                self.change(|document| document.set_error(id, within(error, MOST_ERROR)))
            }
            Message::Edit(Edit::Point(Point::Error(id, error))) => {
                let (name, error) = (id.name(), Amount(error));
                self.notices = vec![format!(
                    "The measuring tolerance of the {name} can’t be {error} mm; it must be between 0 and {MOST_ERROR} mm."
                )];
            }
            Message::Edit(Edit::Show(Show::Units(units))) => self.change(|document| document.units = units),
            Message::Edit(Edit::Show(Show::Loads(loads))) => match loads.problem() {
                Some(sentence) => self.notices = vec![sentence],
                None => self.change(|document| document.loads = loads),
            },
            Message::Edit(Edit::Part(Part::Vehicle(vehicle))) => {
                self.change_part(|layout| layout.vehicle = Some(vehicle))
            }
            Message::Edit(Edit::Part(Part::Damper(damper))) => self.change_part(|layout| layout.damper = Some(damper)),
            Message::Edit(Edit::Part(Part::HalfShaft(shaft))) => self.change_part(|layout| layout.half_shaft = shaft),
            Message::Edit(Edit::Part(Part::Bar(bar))) => self.change_part(|layout| layout.anti_roll_bar = bar),
            Message::Edit(Edit::Part(Part::Spring(spring))) => self.change_part(|layout| layout.spring = *spring),
            Message::Edit(Edit::About(About::Teach(lesson))) => {
                self.change_words(|document| document.lesson = lesson.map(|lesson| *lesson))
            }
            Message::Reply(Reply::Answer(answer)) => self.answer(answer),
            Message::Reply(Reply::Check) => {
                if let Some(lesson) = &self.document.lesson {
                    self.document.answer = lesson.check(&self.document);
                }
            }
            Message::Edit(Edit::About(About::Story(shots))) => self.change_words(|document| document.story = shots),
            Message::Tell(Tell::End) => self.end_story(),
            Message::Tell(Tell::Shot(shot)) => {
                self.untold.get_or_insert_with(|| Box::new(self.document.clone()));
                self.selected = shot.points_at.filter(|id| shot.layout.point(*id).is_some());
                let Shot { layout, travel, rack, whole, roll, pinned, caption, .. } = *shot;
                (self.document.layout, self.document.pinned, self.caption) = (layout, pinned, Some(caption));
                (self.document.whole, self.document.roll) = (whole, fine(roll, ROLL));
                let rack = within(rack, self.document.rack_travel());
                (self.document.travel, self.document.rack) = (within(travel, MOST_TRAVEL), rack);
                self.solve(None);
            }
            Message::Edit(Edit::About(About::Compare(layout))) => self.compare(layout.map(|layout| *layout)),
            Message::Edit(Edit::About(About::CompareStart)) => self.compare(Some(self.start.layout.clone())),
            Message::Edit(Edit::About(About::Swap)) => {
                if let Some(compared) = self.document.compared.clone() {
                    self.change(|document| {
                        document.compared = Some(std::mem::replace(&mut document.layout, compared));
                        document.rack = document.rack.clamp(-document.rack_travel(), document.rack_travel());
                    });
                }
            }
            Message::Edit(Edit::Show(Show::Whole(whole))) => self.change(|document| document.whole = whole),
            Message::Edit(Edit::Stand(Stand::Roll(roll))) => self.change(|document| document.roll = fine(roll, ROLL)),
            Message::Edit(Edit::Stand(Stand::Travels(left, right))) => {
                let axle = self.study.good.standing([left, right], self.document.rack);
                match axle {
                    Ok(roll) if roll.abs() <= ROLL => self.change(|document| {
                        document.travel = within(f64::midpoint(left, right), MOST_TRAVEL);
                        document.roll = fine(roll, ROLL);
                    }),
                    Ok(roll) => {
                        self.notices =
                            vec![format!("These travels mean a body roll of {roll:.1}°; the limit here is {ROLL}°.")];
                    }
                    Err(sentence) => self.notices = vec![sentence],
                }
            }
            Message::Edit(Edit::Stand(Stand::Braking(braking))) => {
                let most = self.document.layout.vehicle().most_braking();
                let dive = self.study.good.dive(braking).filter(|_| (0.0..=most).contains(&braking));
                match dive {
                    Some(travel) if travel.abs() <= MOST_TRAVEL => self.change(|document| {
                        (document.travel, document.roll) = (within(travel, MOST_TRAVEL), 0.0);
                    }),
                    _ => {
                        let braking = Amount(braking);
                        self.notices = vec![format!(
                            "At {braking} g the springs reach no position that can be shown. Enter 0 to {most:.2} g, this car’s limit."
                        )];
                    }
                }
            }
            Message::Edit(Edit::Part(Part::Stops(stops))) => self.change_part(|layout| layout.stops = stops),
            Message::Run(Run::Begin) => self.history.push(self.document.clone()),
            Message::Run(Run::To(travel, rack)) => {
                let rack = within(rack, self.document.rack_travel());
                (self.document.travel, self.document.rack) = (within(travel, MOST_TRAVEL), rack);
                self.solve(None);
            }
            Message::Edit(Edit::Stand(Stand::AtRest)) => {
                self.change(|document| (document.travel, document.rack, document.roll) = (document.ride, 0.0, 0.0))
            }
            Message::Edit(Edit::About(About::Rename(name))) => {
                self.change_words(|document| document.layout.name = name.chars().take(120).collect())
            }
            Message::Edit(Edit::About(About::Note(note))) => {
                self.change_words(|document| document.layout.note = note.chars().take(LONGEST_NOTE).collect())
            }
            Message::Edit(Edit::Show(Show::Over(over))) => self.change(|document| document.over = over),
            Message::Edit(Edit::Show(Show::Pin(column))) => self.change(|document| pin(&mut document.pinned, column)),
        }
    }

    /// Solves the document. While a hand holds something the scales under it do not shrink.
    fn solve(&mut self, moved: Option<PointId>) {
        let held = self.step != Counts::Single;
        let reach = if held { self.study.good.reach } else { 0.0 };
        self.study.update(&self.document, moved, reach);
    }

    /// The hand lets go; the scales fit again.
    fn release(&mut self) {
        self.step = Counts::Single;
        if self.study.trouble.is_none() && self.document.reach() < self.study.good.reach {
            self.solve(None);
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
            let why = if lesson { "is fixed in this exercise" } else { "is locked; unlock it under Points" };
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

    /// Puts many points in one step; what is out of range leaves all where they are, what is locked stays and is said.
    fn place_all(&mut self, points: &[(PointId, Vec3)]) {
        let beyond: Vec<String> = points.iter().filter_map(|(id, at)| self.out_of_range(*id, *at)).collect();
        if !beyond.is_empty() {
            self.notices = beyond;
            return;
        }
        self.update(Hand::Hold);
        let mut kept = Vec::new();
        for (id, at) in points {
            if self.ranges(*id).contains(&None) {
                kept.push(id.name());
            }
            self.place(*id, *at);
        }
        self.update(Hand::Release);
        if !kept.is_empty() {
            self.notices = vec![format!("Locked points were not moved: {}.", kept.join("; "))];
        }
    }

    /// What is wrong with typed coordinates that lie beyond where a point may go.
    fn out_of_range(&self, id: PointId, at_rest: Vec3) -> Option<String> {
        let now = self.document.layout.point(id)?;
        (0..3).find_map(|axis| {
            let [least, most] = self.ranges(id)[axis]?;
            let beyond = at_rest[axis] != now[axis] && !(least..=most).contains(&at_rest[axis]);
            let (name, value, axis) = (id.name(), Amount(at_rest[axis]), ["x", "y", "z"][axis]);
            beyond.then(|| {
                format!("The {axis} of the {name} can’t be {value} mm: it must be between {least} and {most} mm here.")
            })
        })
    }

    /// The range of each coordinate of a point; `None` where a lock or a lesson keeps it.
    pub fn ranges(&self, id: PointId) -> [Option<[f64; 2]>; 3] {
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
            self.change_words(|document| document.compared = layout);
        } else {
            self.notices = problems;
        }
    }

    /// Opens another document; the one before can be had back by undo.
    fn open(&mut self, document: Document) {
        self.start = document.clone();
        self.open_again(document);
    }

    /// The same of what was opened before.
    fn open_again(&mut self, document: Document) {
        self.begin_step();
        self.selected = self.selected.filter(|id| document.layout.point(*id).is_some());
        self.change(|present| *present = document);
    }

    /// Changes a part of the layout that is typed; one that is no part is said and not taken.
    fn change_part(&mut self, change: impl FnOnce(&mut Layout)) {
        let mut layout = self.document.layout.clone();
        change(&mut layout);
        let before = kernel::validate(&self.document.layout);
        let problems = kernel::validate(&layout).into_iter().filter(|problem| !before.contains(problem));
        let problems: Vec<String> = problems.map(|problem| problem.to_string()).collect();
        if problems.is_empty() {
            self.change(|document| document.layout = layout);
        } else {
            self.notices = problems;
        }
    }

    /// Changes what may be as long as people write; what no link could carry is said and not taken.
    fn change_words(&mut self, change: impl FnOnce(&mut Document)) {
        let mut document = self.document.clone();
        change(&mut document);
        match link::too_long(&document, &self.document) {
            Some(sentence) => self.notices = vec![sentence],
            None => self.change(|present| *present = document),
        }
    }

    /// Takes an answer, unless no link could carry it. No step of the drawing's: undo does not take it back, least of all what has been shown
    /// for it.
    fn answer(&mut self, answer: Answer) {
        let document = Document { answer, ..self.document.clone() };
        match link::too_long(&document, &self.document) {
            Some(sentence) => self.notices = vec![sentence],
            None => self.document = document,
        }
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
        // What hands do to a shot goes with it.
        if self.step != Counts::Part && !self.tells() {
            self.history.push(before);
        }
        if self.step == Counts::Opening {
            self.step = Counts::Part;
        }
        self.solve(moved);
        self.prepare_lesson();
    }

    /// While a lesson is prepared, what is to be predicted is counted from where the axle is now.
    fn prepare_lesson(&mut self) {
        let prepared = self.document.lesson.as_ref().filter(|lesson| !lesson.sealed());
        let Some(prediction) = prepared.and_then(|lesson| lesson.predict) else { return };
        let now = Prediction::of(prediction.column, &self.document);
        if let Some(lesson) = &mut self.document.lesson {
            lesson.predict = now.or(lesson.predict);
        }
    }

    /// What a hand that still holds something does from now on is a step of its own.
    fn begin_step(&mut self) {
        if self.step == Counts::Part {
            self.step = Counts::Opening;
        }
    }

    /// Brings back what a story was told over.
    fn end_story(&mut self) {
        if let Some(before) = self.untold.take() {
            (self.document, self.caption, self.selected) = (*before, None, None);
            self.solve(None);
        }
    }

    /// In one lesson there is one answer, whatever becomes of the axle.
    fn keep_answer(&self, document: &mut Document) {
        if document.lesson == self.document.lesson {
            document.answer = self.document.answer.clone();
        }
    }

    fn walk(&mut self, step: fn(&mut History<Document>, Document) -> Option<Document>) {
        self.begin_step();
        if let Some(mut document) = step(&mut self.history, self.document.clone()) {
            self.keep_answer(&mut document);
            self.document = document;
            self.selected = self.selected.filter(|id| self.document.layout.point(*id).is_some());
            self.solve(None);
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
