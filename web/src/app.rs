//! State → update: what the page holds, what can happen to it, and what then is. No browser types. Each family of messages has a file and a
//! handler; how a change counts for undo, and that it is solved, stands here.

mod asked;
mod course;
mod edit;
mod fold;
mod goal;
mod hand;
mod history;
mod margin;
mod message;
mod open;
mod refusal;
mod remark;
mod reply;
mod row;
mod run;
mod say;
mod space;
mod step;
mod tape;
mod tell;
mod told;

pub use asked::{Lever, Riding, WHEEL_CHANGES};
pub use course::Course;
use course::Left;
pub use edit::{About, Beside, Build, Bulk, Edit, Edited, Measure, Paper, Part, Point, Show, Soften, Stand};
pub use fold::{FOLDED, Fold};
use hand::Grip;
pub use hand::Hand;
pub use margin::{Margin, PlusMinus};
pub use message::Message;
pub use open::Open;
pub use refusal::{Coordinate, Refusal};
pub use reply::Reply;
pub use row::InRow;
pub use run::Run;
pub use say::Say;
pub use space::Room;
pub use step::Step;
pub use tell::Tell;
pub use told::Told;

use crate::content::demos::{self, DEMOS};
use crate::document::goal::Ends;
use crate::document::lesson::Prediction;
use crate::document::{Document, Over};
use crate::drawing::{Axle, Fault, Picture, Slide};
use crate::study::{Others, Study};
use asked::Asked;
use history::History;
use kernel::{Group, PointId};

/// The page's state.
pub struct App {
    /// The present document.
    pub document: Document,
    /// What is solved for it.
    pub study: Study,
    /// The joint in hand.
    pub selected: Option<PointId>,
    /// The mount of the subframe that was taken last.
    mount: Option<usize>,
    /// What a story being told shows and says now.
    slide: Option<Slide>,
    /// The ends of the box of the joint in hand that keys move.
    pub bound: Option<Ends>,
    /// What there is to say: a link's or a file's faults.
    pub notices: Vec<String>,
    /// What of wheel space is drawn.
    pub room: Room,
    asked: Asked,
    /// How far readings may be off.
    margins: margin::Held,
    /// Groups of readings that somebody has opened.
    unfolded: Vec<Group>,
    others: Others,
    history: History<Document>,
    grip: Option<Grip>,
    start: Document,
    /// While a lesson is tried: its preparation.
    tried: Option<Box<Document>>,
    /// The lesson that was left last.
    left: Option<Box<Left>>,
    /// While a story is told: the document it is told over, which its end brings back.
    untold: Option<Box<Document>>,
}

impl App {
    /// The page on a document, with what there is to say about it.
    pub fn new(document: Document, notices: Vec<String>) -> App {
        let study = Study::new(&document, demos::opening);
        App {
            study,
            selected: None,
            mount: None,
            slide: None,
            bound: None,
            tried: None,
            left: None,
            untold: None,
            notices,
            room: Room::default(),
            asked: Asked::default(),
            margins: margin::Held::default(),
            unfolded: Vec::new(),
            others: Others::new(DEMOS.iter().map(|(name, _)| *name).zip(demos::all()).collect()),
            history: History::default(),
            grip: None,
            start: document.clone(),
            document,
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
            built: &good.axle,
            hands: self.document.hands,
            compared: self.study.compared.as_ref().map(|solved| Axle::of(solved)),
            loads: self.study.loaded.as_ref(),
            space: self.drawn_space(),
            deflected: self.study.deflected.as_ref(),
            whole: good.whole.as_ref(),
            right: Axle::right_of(good),
            path: if self.document.over == Over::Roll { good.over_whole() } else { &[] },
            pinned: &self.document.pinned,
            lesson: self.document.lesson.as_ref().map(|lesson| (lesson, &self.document.answer)),
            slide: self.slide.as_ref(),
            selected: self.selected,
            mount: self.mount_in_hand().map(|(which, _)| which),
            locks: &self.document.locks,
            units: self.document.units,
            fault: self.study.trouble.as_ref().map(|trouble| Fault { joint: trouble.joint, member: trouble.member }),
        }
    }

    /// True if something has been done since the document was opened.
    pub fn edited(&self) -> bool {
        let answered = self.document.answer != self.start.answer || self.document.series != self.start.series;
        (self.can_undo() || answered) && self.document != self.start
    }

    /// True while a hand holds something.
    pub fn held(&self) -> bool {
        self.history.held()
    }

    /// True while a story is told.
    pub fn tells(&self) -> bool {
        self.untold.is_some()
    }

    /// What the page opened with: the link, the file or the demo.
    pub fn opened(&self) -> &Document {
        &self.start
    }

    /// Lets a message take effect.
    pub fn update(&mut self, message: impl Into<Message>) {
        let message = message.into();
        self.asked = Asked::default();
        if self.tells() && message.ends_a_story() {
            self.end_story();
            // What can be undone of a story is that it was told.
            if matches!(message, Message::Step(_)) {
                return;
            }
        }
        match message {
            Message::Open(open) => self.open(open),
            Message::Edit(edit) => self.edit(edit),
            Message::Course(course) => self.course(course),
            Message::Reply(reply) => self.reply(reply),
            Message::Step(step) => self.step(step),
            Message::Hand(hand) => self.hand(hand),
            Message::Run(run) => self.run(run),
            Message::Tell(tell) => self.tell(tell),
            Message::Fold(fold) => self.fold(fold),
            Message::Margin(margin) => self.margin(margin),
            Message::Say(say) => self.say(say),
            Message::Room(room) => self.room = room,
        }
    }

    /// Makes an edit, or says why not.
    fn edit(&mut self, edit: Edit) {
        match edit.on(&self.document, &self.study.good) {
            Ok(Edited { document, moved, kept }) => {
                self.selected = moved.or(self.selected);
                self.change_to(document, moved);
                if !kept.is_empty() {
                    self.refuse(&Refusal::Kept(kept));
                }
            }
            Err(why) => {
                if let Refusal::Fixed { point, .. } = why {
                    self.selected = Some(point);
                }
                self.refuse(&why);
            }
        }
    }

    /// Puts a changed document in place of the present one: a step to undo, unless it is part of a held one. `moved` is a joint that the study can
    /// point to if the linkage can't follow.
    fn change_to(&mut self, document: Document, moved: Option<PointId>) {
        if document == self.document {
            return;
        }
        let before = std::mem::replace(&mut self.document, document);
        // What hands do to a shot goes with it.
        if !self.tells() {
            self.history.record(before);
        }
        self.solve(moved);
        self.prepare_lesson();
    }

    /// Solves the document. While a hand holds something the scales under it do not shrink.
    fn solve(&mut self, moved: Option<PointId>) {
        let held = self.held().then_some(self.study.good.reach);
        self.study.update(&self.document, moved, held);
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
}
