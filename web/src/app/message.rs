//! Everything that can happen to the page's state, in families. What a message means as a whole (whether it is a step to undo, whether a
//! story that is being told ends before it) follows from its family.

use crate::document::lesson::{Answer, Lesson};
use crate::document::story::Shot;
use crate::document::{Document, Loads, Over};
use crate::text::number::Units;
use kernel::{AntiRollBar, Damper, HalfShaft, Layout, PointId, Spring, Stops, Vec3, Vehicle};

/// What can happen.
#[derive(Clone, Debug)]
pub enum Message {
    /// Another document takes the place of the present one.
    Open(Open),
    /// The document changes: a step to undo.
    Edit(Edit),
    /// A student replies: no step to undo.
    Reply(Reply),
    /// A step is undone or done again.
    Step(Step),
    /// A hand takes, moves or leaves something on the drawing.
    Hand(Hand),
    /// The axle moves by itself.
    Run(Run),
    /// A story is told.
    Tell(Tell),
    /// The page says something.
    Say(Say),
}

/// A change of the document.
#[derive(Clone, Debug)]
pub enum Edit {
    /// Of its points.
    Point(Point),
    /// Of where the axle stands.
    Stand(Stand),
    /// Of what is fitted to it.
    Part(Part),
    /// Of what is shown of it.
    Show(Show),
    /// Of what stands about it. A story is not the reader's own: it ends before that.
    About(About),
}

/// Another document takes the place of the present one.
#[derive(Clone, Debug)]
pub enum Open {
    /// A document, with what there is to say about it.
    Document(Box<Document>, Vec<String>),
    /// One of the demos, at the present position.
    Demo(usize),
    /// What the link, the file or the demo opened with.
    Start,
}

/// A change of a point.
#[derive(Clone, Debug)]
pub enum Point {
    /// It gets new rest coordinates, mm.
    Place(PointId, Vec3),
    /// Points get new rest coordinates, mm, all in one step.
    PlaceAll(Vec<(PointId, Vec3)>),
    /// Locks these coordinates of it and frees its others.
    Lock(PointId, [bool; 3]),
    /// How far it may be off, mm.
    Error(PointId, f64),
}

/// A change of where the axle stands.
#[derive(Clone, Copy, Debug)]
pub enum Stand {
    /// Wheel travel, mm.
    Travel(f64),
    /// Rack displacement, mm.
    Rack(f64),
    /// The travel at ride height, mm.
    Ride(f64),
    /// Roll of the body, degrees.
    Roll(f64),
    /// Travel of the left and of the right wheel, mm: mean travel and roll follow.
    Travels(f64, f64),
    /// The axle dives under braking, in g: travel follows, without roll.
    Braking(f64),
    /// To ride height, wheels straight ahead.
    AtRest,
}

/// A change of a part that is typed.
#[derive(Clone, Debug)]
pub enum Part {
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
    /// Travels at which bump and rebound stops end the way, mm; or none.
    Stops(Option<Stops>),
}

/// A change of what is shown.
#[derive(Clone, Copy, Debug)]
pub enum Show {
    /// What lengths, angles and toe are shown in.
    Units(Units),
    /// One wheel or the whole axle.
    Whole(bool),
    /// What the curves run over.
    Over(Over),
    /// Pins a reading to the curves, or takes it off.
    Pin(&'static str),
    /// What loads the axle and what its arms are.
    Loads(Loads),
}

/// A change of what stands about the axle.
#[derive(Clone, Debug)]
pub enum About {
    /// The layout's name.
    Rename(String),
    /// What the layout's note says.
    Note(String),
    /// The lesson, prepared or taken away.
    Teach(Option<Box<Lesson>>),
    /// The shots of the story.
    Story(Vec<Shot>),
    /// Lays another axle over the present one, or takes it off.
    Compare(Option<Box<Layout>>),
    /// Lays the axle that the page opened with over the present one.
    CompareStart,
    /// The present axle and the one laid over it change places.
    Swap,
}

/// What a student does in a lesson.
#[derive(Clone, Debug)]
pub enum Reply {
    /// The answer.
    Answer(Answer),
    /// The answer is to be checked, and what is hidden shown if there is one.
    Check,
}

/// Back and forth along what has been done.
#[derive(Clone, Copy, Debug)]
pub enum Step {
    /// One step back.
    Undo,
    /// One step forward again.
    Redo,
}

/// What a hand does on the drawing.
#[derive(Clone, Copy, Debug)]
pub enum Hand {
    /// The joint in hand.
    Select(Option<PointId>),
    /// A drag or a run of key presses begins: everything until [`Hand::Release`] is one undo step.
    Hold,
    /// It ends.
    Release,
    /// A joint is dragged to a place on the drawing, mm.
    Drag(PointId, Vec3),
    /// The joint in hand moves by this much at rest, mm.
    Nudge(Vec3),
    /// The joint in hand goes back to where it was when the page, link or file was opened.
    Reset,
}

/// A movement that runs by itself.
#[derive(Clone, Copy, Debug)]
pub enum Run {
    /// It begins: the document as it is now can be had back by undo.
    Begin,
    /// It has come to this travel and rack, mm: no undo step.
    To(f64, f64),
}

/// A story being told.
#[derive(Clone, Debug)]
pub enum Tell {
    /// Shows a shot in passing.
    Shot(Box<Shot>),
    /// Ends it and brings back what was there before.
    End,
}

/// What the page says.
#[derive(Clone, Debug)]
pub enum Say {
    /// A sentence.
    Sentence(String),
    /// Nothing more.
    Nothing,
}

/// A member of a family is one of the whole.
macro_rules! families {
    ($whole:ident: $($family:ident),*) => {
        $(impl From<$family> for $whole {
            fn from(one: $family) -> $whole {
                $whole::$family(one)
            }
        })*
    };
}

families!(Message: Open, Edit, Reply, Step, Hand, Run, Tell, Say);
families!(Edit: Point, Stand, Part, Show, About);

/// And a kind of edit too.
macro_rules! edits {
    ($($kind:ident),*) => {
        $(impl From<$kind> for Message {
            fn from(edit: $kind) -> Message {
                Message::Edit(edit.into())
            }
        })*
    };
}

edits!(Point, Stand, Part, Show, About);

impl Message {
    /// True for what a story ends before: it is meant for the reader's own document, not for what is shown in passing.
    pub(super) fn ends_a_story(&self) -> bool {
        match self {
            Message::Open(_)
            | Message::Edit(Edit::About(_))
            | Message::Reply(_)
            | Message::Step(_)
            | Message::Run(_) => true,
            Message::Edit(_) | Message::Hand(_) | Message::Tell(_) | Message::Say(_) => false,
        }
    }
}
