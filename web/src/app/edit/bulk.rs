//! Changes of what takes up room: boxes that stand in the way, and how thick parts are.

use super::{hundredth, sound};
use crate::app::refusal::Refusal;
use crate::document::Document;
use crate::study::space::Held;
use kernel::field::SOLID;
use kernel::{Member, Obstacle, Solid, Vec3};

/// A change of what takes up room.
#[derive(Clone, Debug)]
pub enum Bulk {
    /// A box: another in its place, one more behind the last, or none there.
    Box(usize, Option<Obstacle>),
    /// A corner of a box, or the whole box by its middle, is dragged to a place, mm.
    BoxAt(usize, Held, Vec3),
    /// How thick parts are.
    Solid(Solid),
    /// A bend of an arm, mm: another in its place, one more behind the last, or none there.
    Bend(Member, usize, Option<Vec3>),
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
            Bulk::Box(at, one) => put(&mut layout.boxes, at, one.map(rounded)),
            Bulk::BoxAt(at, held, to) => {
                if let Some(one) = layout.boxes.get_mut(at) {
                    drag(one, held, to);
                }
            }
            Bulk::Solid(solid) => layout.solid = thick(solid),
            Bulk::Bend(member, at, to) => layout.solid = bent(layout.solid(), member, at, to),
            Bulk::Rim(radius) => layout.wheel.rim_radius = radius.map(hundredth),
        }
        sound(document, after)
    }
}

fn put<T>(list: &mut Vec<T>, at: usize, one: Option<T>) {
    match one {
        Some(one) if at < list.len() => list[at] = one,
        Some(one) => list.push(one),
        None if at < list.len() => drop(list.remove(at)),
        None => {}
    }
}

/// With another bend; an arm without any is straight.
fn bent(mut solid: Solid, member: Member, at: usize, to: Option<Vec3>) -> Option<Solid> {
    let mut points = solid.via.get(&member).cloned().unwrap_or_default();
    put(&mut points, at, to.map(|to| to.map(hundredth)));
    solid.via.remove(&member);
    if !points.is_empty() {
        solid.via.insert(member, points);
    }
    thick(solid)
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
