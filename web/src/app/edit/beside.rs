//! Changes of what stands beside the axle: others, each in a drawing of its own, to one scale.

use crate::app::refusal::Refusal;
use crate::document::{Document, MOST_BESIDE};
use crate::link;
use kernel::{Change, Layout, Sides, validate};

/// A change of what stands beside the axle.
#[derive(Clone, Debug)]
pub enum Beside {
    /// More axles, behind the others.
    Add(Vec<Layout>),
    /// The axle as it is now, to be seen beside what becomes of it.
    Now,
    /// A variant, as it is built now.
    Variant(usize),
    /// One of them goes, counted from 0.
    TakeOut(usize),
}

impl Beside {
    /// The document after it, if a link can carry it.
    pub fn on(self, document: &Document) -> Result<Document, Refusal> {
        let mut after = document.clone();
        let more = match self {
            Beside::Add(layouts) => layouts,
            Beside::Now => vec![document.layout.clone()],
            Beside::Variant(at) => {
                document.variants.get(at).map(|variant| variant.compared(&document.layout)).into_iter().collect()
            }
            Beside::TakeOut(at) => {
                if at < after.beside.len() {
                    after.beside.remove(at);
                }
                Vec::new()
            }
        };
        for mut layout in more {
            let problems = validate(&layout);
            if !problems.is_empty() {
                return Err(Refusal::Problems(problems));
            }
            if after.beside.len() >= MOST_BESIDE {
                return Err(Refusal::Beside);
            }
            // What says nothing of changes stands where this car stands.
            if layout.changes.is_empty() {
                layout.changes.set(Sides::Both, Change::Ride, document.ride());
            }
            after.beside.push(layout);
        }
        match link::too_long(&after, document) {
            Some(too_long) => Err(Refusal::TooLong(too_long)),
            None => Ok(after),
        }
    }
}
