//! Changes of what stands about the axle: its name and note, the axle laid over it, the lesson, the story. All of it can be as long as people
//! write, and no more is taken than a link can carry.

use crate::app::refusal::Refusal;
use crate::document::Document;
use crate::document::lesson::Lesson;
use crate::document::story::Shot;
use crate::link;
use kernel::{Change, LONGEST_NAME, LONGEST_NOTE, Layout, Sides, clean, validate};

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
    /// The present axle and the one laid over it change places.
    Swap,
}

impl About {
    /// The document after it.
    pub fn on(self, document: &Document) -> Result<Document, Refusal> {
        let mut after = document.clone();
        match self {
            About::Rename(name) => after.layout.name = clean(&name).chars().take(LONGEST_NAME).collect(),
            About::Note(note) => after.layout.note = clean(&note).chars().take(LONGEST_NOTE).collect(),
            About::Teach(lesson) => after.lesson = lesson.map(|lesson| *lesson),
            About::Story(shots) => after.story = shots,
            About::Compare(layout) => {
                let problems: Vec<_> = layout.iter().flat_map(|layout| validate(layout)).collect();
                if !problems.is_empty() {
                    return Err(Refusal::Problems(problems));
                }
                after.compared = layout.map(|layout| *layout);
                // What says nothing of changes is compared where this car stands.
                let silent = after.compared.as_mut().filter(|layout| layout.changes.is_empty());
                silent.into_iter().for_each(|layout| layout.changes.set(Sides::Both, Change::Ride, document.ride()));
            }
            About::Swap => {
                if let Some(compared) = after.compared.take() {
                    after.compared = Some(after.stand_in(compared));
                    // Those that were made for the other design and can't be built on this one go.
                    after.variants.retain(|variant| variant.fits(&after.layout));
                }
            }
        }
        match link::too_long(&after, document) {
            Some(too_long) => Err(Refusal::TooLong(too_long)),
            None => Ok(after),
        }
    }
}
