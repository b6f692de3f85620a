//! Changes of what takes up room: boxes that stand in the way, and how thick parts are.

use super::{hundredth, sound};
use crate::app::refusal::Refusal;
use crate::document::Document;
use crate::study::space::Held;
use kernel::field::SOLID;
use kernel::{Obstacle, Solid, Vec3};

/// A change of what takes up room.
#[derive(Clone, Debug)]
pub enum Bulk {
    /// A box: another in its place, one more behind the last, or none there.
    Box(usize, Option<Obstacle>),
    /// A corner of a box, or the whole box by its middle, is dragged to a place, mm.
    BoxAt(usize, Held, Vec3),
    /// How thick parts are.
    Solid(Solid),
    /// Inside radius of the rim’s barrel, mm; `None` for the usual one.
    Rim(Option<f64>),
}

impl Bulk {
    /// The document after it, if the layout has no problem that it did not have before.
    pub fn on(self, document: &Document) -> Result<Document, Refusal> {
        if document.sealed() {
            return Err(Refusal::NotInExercise);
        }
        let mut after = document.clone();
        let layout = &mut after.layout;
        match self {
            Bulk::Box(at, one) => put(&mut layout.boxes, at, one),
            Bulk::BoxAt(at, held, to) => {
                if let Some(one) = layout.boxes.get_mut(at) {
                    drag(one, held, to);
                }
            }
            Bulk::Solid(solid) => layout.solid = thick(solid),
            Bulk::Rim(radius) => layout.wheel.rim_radius = radius.map(hundredth),
        }
        sound(document, after)
    }
}

fn put(boxes: &mut Vec<Obstacle>, at: usize, one: Option<Obstacle>) {
    match one.map(rounded) {
        Some(one) if at < boxes.len() => boxes[at] = one,
        Some(one) => boxes.push(one),
        None if at < boxes.len() => drop(boxes.remove(at)),
        None => {}
    }
}

fn drag(one: &mut Obstacle, held: Held, to: Vec3) {
    let by = to - held.place(one);
    if held != Held::To {
        one.from += by;
    }
    if held != Held::From {
        one.to += by;
    }
    *one = rounded(one.clone());
}

/// With its corners to the hundredth of a mm that a link carries.
fn rounded(one: Obstacle) -> Obstacle {
    Obstacle { from: one.from.map(hundredth), to: one.to.map(hundredth), ..one }
}

/// What is as thick as usual needs no number of its own.
fn thick(solid: Solid) -> Option<Solid> {
    let usual = Solid::default();
    let mut tidy = Solid { via: solid.via.clone(), ..Solid::default() };
    for field in SOLID.iter().filter(|field| (field.get)(&solid) != (field.get)(&usual)) {
        (field.set)(&mut tidy, hundredth((field.get)(&solid)));
    }
    (tidy != usual).then_some(tidy)
}
