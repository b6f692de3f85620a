//! Everything that can happen to the page's state.

use crate::document::lesson::{Answer, Lesson};
use crate::document::story::Shot;
use crate::document::{Document, Loads, Over};
use crate::text::number::Units;
use kernel::{AntiRollBar, Damper, HalfShaft, Layout, PointId, Spring, Stops, Vec3, Vehicle};

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
    /// The travel at ride height, mm.
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
    /// The answer is to be checked, and what is hidden shown if there is one.
    Check,
    /// The shots of the story.
    Story(Vec<Shot>),
    /// Shows a shot of a story in passing; `None` ends it and brings back what was there before.
    Shot(Option<Box<Shot>>),
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
    /// Saves the present document as an undo step before a movement.
    Mark,
    /// Travel and rack during a movement, mm: not an undo step.
    Pass(f64, f64),
    /// To ride height, wheels straight ahead.
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
    /// Closes the notice.
    Hush,
}

impl Message {
    /// True for what changes the reader's document as a whole, not what is shown of it: a story ends before it.
    pub(super) fn is_for_the_document(&self) -> bool {
        matches!(
            self,
            Message::Open(..)
                | Message::Demo(_)
                | Message::BackToStart
                | Message::Undo
                | Message::Redo
                | Message::Teach(_)
                | Message::Answer(_)
                | Message::Check
                | Message::Story(_)
                | Message::Compare(_)
                | Message::CompareStart
                | Message::Swap
                | Message::Rename(_)
                | Message::Note(_)
                | Message::Mark
        )
    }
}
