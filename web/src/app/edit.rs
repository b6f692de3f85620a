//! Changes of the document: each is a function of the document as it is, and gives the document as it then is or says why not. Undo, solving and
//! saying are none of an edit's business.

mod about;
mod beside;
mod build;
mod bulk;
mod measure;
mod paper;
mod part;
mod point;
mod show;
mod soften;
mod stand;

pub use about::About;
pub use beside::Beside;
pub use build::Build;
pub use bulk::Bulk;
pub use measure::Measure;
pub use paper::Paper;
pub use part::Part;
pub use point::Point;
pub use show::Show;
pub use soften::Soften;
pub use stand::Stand;

use super::refusal::Refusal;
use crate::document::Document;
use crate::document::lesson::Lesson;
use crate::study::Solved;
use kernel::{PointId, Problem, validate};

/// A change of the document.
#[derive(Clone, Debug)]
pub enum Edit {
    /// Of its points.
    Point(Point),
    /// Of where the axle stands.
    Stand(Stand),
    /// Of a part of the layout.
    Part(Part),
    /// Of what gives way.
    Soften(Soften),
    /// Of what takes up room.
    Bulk(Bulk),
    /// Of how the axle is built, against its design.
    Build(Build),
    /// Of what was measured on a car.
    Measure(Measure),
    /// Of what is shown of the axle.
    Show(Show),
    /// Of what stands about the axle. A story being told is not the reader's own, so it ends before that.
    About(About),
    /// Of what stands beside the axle, in drawings of their own.
    Beside(Beside),
    /// Of what was typed beside it. That, too, is the reader's own.
    Paper(Paper),
}

/// A document after an edit.
pub struct Edited {
    /// The document.
    pub document: Document,
    /// The joint that was moved; the last of several.
    pub moved: Option<PointId>,
    /// Points that the edit was meant for and locks have kept, in part or whole.
    pub kept: Vec<PointId>,
}

impl From<Document> for Edited {
    fn from(document: Document) -> Edited {
        Edited { document, moved: None, kept: Vec::new() }
    }
}

/// To the hundredth of a mm that a link carries.
fn hundredth(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}

/// The document after an edit, unless its layout has a problem that it did not have before.
fn sound(before: &Document, after: Document) -> Result<Document, Refusal> {
    let known = validate(&before.layout);
    let new: Vec<Problem> = validate(&after.layout).into_iter().filter(|problem| !known.contains(problem)).collect();
    if new.is_empty() { Ok(after) } else { Err(Refusal::Problems(new)) }
}

/// The range of each coordinate of a point, mm, `None` where it is kept; refused where all three are.
pub(super) fn movable(document: &Document, id: PointId) -> Result<[Option<[f64; 2]>; 3], Refusal> {
    let ranges = document.ranges(id);
    let exercise = document.lesson.as_ref().filter(|lesson| lesson.sealed()).map(Lesson::movable);
    let kept = Refusal::Fixed { point: id, exercise };
    if ranges == [None; 3] { Err(kept) } else { Ok(ranges) }
}

impl Edit {
    /// The document after the edit. `good` is the axle as it closed last: what is asked for by its effect (a travel of each wheel, a braking) is
    /// looked for on it.
    pub fn on(self, document: &Document, good: &Solved) -> Result<Edited, Refusal> {
        match self {
            Edit::Point(point) => point.on(document),
            Edit::Stand(stand) => stand.on(document, good).map(Edited::from),
            Edit::Part(part) => part.on(document).map(Edited::from),
            Edit::Soften(soften) => soften.on(document).map(Edited::from),
            Edit::Bulk(bulk) => bulk.on(document).map(Edited::from),
            Edit::Build(build) => build.on(document).map(Edited::from),
            Edit::Measure(measure) => measure.on(document),
            Edit::Show(show) => show.on(document).map(Edited::from),
            Edit::About(about) => about.on(document).map(Edited::from),
            Edit::Beside(beside) => beside.on(document).map(Edited::from),
            Edit::Paper(paper) => Ok(paper.on(document).into()),
        }
    }
}
