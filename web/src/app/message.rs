//! Everything that can happen to the page's state, in families. What a message means as a whole (whether it is a step to undo, whether a
//! story that is being told ends before it) follows from its family.

use super::course::Course;
use super::edit::{About, Beside, Build, Bulk, Edit, Measure, Paper, Part, Point, Show, Soften, Stand};
use super::fold::Fold;
use super::hand::Hand;
use super::margin::Margin;
use super::open::Open;
use super::reply::Reply;
use super::run::Run;
use super::say::Say;
use super::space::Room;
use super::step::Step;
use super::tell::Tell;

/// What can happen.
#[derive(Clone, Debug)]
pub enum Message {
    /// Another document takes the place of the present one: a step to undo.
    Open(Open),
    /// The document changes: a step to undo.
    Edit(Edit),
    /// A lesson is copied, tried, left, come back to: a step to undo.
    Course(Course),
    /// A student replies: no step to undo.
    Reply(Reply),
    /// A step is undone or done again.
    Step(Step),
    /// A hand takes, moves or leaves something on the drawing; what it moves is an edit.
    Hand(Hand),
    /// The axle moves by itself.
    Run(Run),
    /// A story is told.
    Tell(Tell),
    /// A group of readings opens or folds.
    Fold(Fold),
    /// Margins of readings, or what they are of.
    Margin(Margin),
    /// The page says something.
    Say(Say),
    /// More or less of wheel space is drawn.
    Room(Room),
}

impl Message {
    /// True for what a story ends before: it is meant for the reader's own document, not for the shot that is shown in passing.
    pub(super) fn ends_a_story(&self) -> bool {
        match self {
            Message::Open(_) | Message::Course(_) | Message::Reply(_) | Message::Step(_) | Message::Run(_) => true,
            Message::Edit(edit) => matches!(edit, Edit::About(_) | Edit::Beside(_) | Edit::Paper(_) | Edit::Measure(_)),
            Message::Hand(_)
            | Message::Tell(_)
            | Message::Fold(_)
            | Message::Margin(_)
            | Message::Say(_)
            | Message::Room(_) => false,
        }
    }
}

/// A message of a family is a message.
macro_rules! families {
    ($($family:ident),*) => {
        $(impl From<$family> for Message {
            fn from(message: $family) -> Message {
                Message::$family(message)
            }
        })*
    };
}

families!(Open, Course, Edit, Reply, Step, Hand, Run, Tell, Fold, Margin, Say, Room);

/// An edit of a kind is an edit, and a message.
macro_rules! edits {
    ($($kind:ident),*) => {
        $(impl From<$kind> for Edit {
            fn from(edit: $kind) -> Edit {
                Edit::$kind(edit)
            }
        }

        impl From<$kind> for Message {
            fn from(edit: $kind) -> Message {
                Message::Edit(Edit::$kind(edit))
            }
        })*
    };
}

edits!(Point, Stand, Part, Soften, Bulk, Build, Measure, Show, About, Beside, Paper);
