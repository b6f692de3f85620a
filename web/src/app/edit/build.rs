//! Changes of how the axle is built: what its parts have different from the design, and the variants that were frozen.

use super::sound;
use crate::app::refusal::Refusal;
use crate::document::Document;
use crate::document::variant::{LONGEST_VARIANT, MOST_ADJUSTERS, MOST_VARIANTS, Variant};
use crate::link;
use crate::study::setting::toe_reset;
use kernel::{Adjuster, Change, Changes, Sides, TyreSize, Wheel, clean};

/// A change of how the axle is built.
#[derive(Clone, Debug)]
pub enum Build {
    /// A part is made so much different from the design, mm or degrees; 0 takes the change back.
    Change(Sides, Change, f64),
    /// A tyre of this size is fitted to what is shown.
    Tyre(TyreSize),
    /// An adjuster is set to so far from the design, mm or degrees; where only whole shims go in, to the nearest.
    Adjust(Sides, Adjuster, f64),
    /// The track rods are made so long that each wheel's toe is the design's again where the car stands.
    ResetToe,
    /// The car has one more adjuster.
    Fit(Adjuster),
    /// It has not this one of them.
    Unfit(usize),
    /// All parts get these changes: an adjuster has been set, or all is taken back.
    All(Box<Changes>),
    /// The axle as it is now is kept under a name.
    Freeze(String),
    /// A variant is built: the present changes give way to its own.
    Take(usize),
    /// A variant is laid over the axle as it is now.
    Lay(usize),
    /// A variant is thrown away.
    Drop(usize),
    /// The axle as it is now is laid over itself, to be compared with what becomes of it.
    CompareNow,
}

impl Build {
    /// The document after it, if its layout has no problem that it did not have before and a link can carry it.
    pub fn on(self, document: &Document) -> Result<Document, Refusal> {
        if document.sealed() {
            return Err(Refusal::NotInExercise);
        }
        let mut after = document.clone();
        match self {
            Build::Change(sides, change, by) => after.layout.changes.set(sides, change, fine(change, by)),
            Build::Tyre(size) => fit(&mut after, size),
            Build::Adjust(sides, adjuster, to) => {
                let to = adjuster.step.map_or(to, |shim| (to / shim).round() * shim);
                let [least, most] = adjuster.range;
                if !(least..=most).contains(&to) {
                    return Err(Refusal::Adjuster { to, range: adjuster.range });
                }
                let by = to - adjuster.amount(&after.layout.changes, sides);
                after.layout.changes = all_fine(adjuster.moved(&after.layout.changes, sides, by));
            }
            Build::ResetToe => {
                after.layout.changes = all_fine(toe_reset(&after.layout).ok_or(Refusal::ToeReset)?);
            }
            Build::Fit(_) if after.layout.changes.adjusters.len() >= MOST_ADJUSTERS => return Err(Refusal::Adjusters),
            Build::Fit(adjuster) => after.layout.changes.adjusters.push(adjuster),
            Build::Unfit(at) => {
                if at < after.layout.changes.adjusters.len() {
                    after.layout.changes.adjusters.remove(at);
                }
            }
            Build::All(changes) => after.layout.changes = all_fine(*changes),
            Build::Freeze(_) if after.variants.len() >= MOST_VARIANTS => return Err(Refusal::Variants),
            Build::Freeze(name) => {
                let name = match clean(&name).trim() {
                    "" => format!("Variant {}", after.variants.len() + 1),
                    name => name.chars().take(LONGEST_VARIANT).collect(),
                };
                after.variants.push(Variant::of(&after.layout, name));
            }
            Build::Take(at) => {
                if let Some(layout) = after.variants.get(at).map(|variant| variant.layout(&after.layout)) {
                    after.stand_in(layout);
                }
            }
            Build::Lay(at) => {
                if let Some(variant) = after.variants.get(at) {
                    after.compared = Some(variant.compared(&after.layout));
                }
            }
            Build::Drop(at) if at < after.variants.len() => drop(after.variants.remove(at)),
            Build::Drop(_) => {}
            Build::CompareNow => after.compared = Some(after.layout.clone()),
        }
        let after = sound(document, after)?;
        match link::too_long(&after, document) {
            Some(too_long) => Err(Refusal::TooLong(too_long)),
            None => Ok(after),
        }
    }
}

/// Fits a tyre to the wheels that are shown: what it differs from the design's, less what both sides already do.
fn fit(document: &mut Document, size: TyreSize) {
    let sides = document.changed_sides();
    let design: &Wheel = &document.layout.wheel;
    let differences = [
        (Change::Width, size.width - design.width),
        (Change::FreeRadius, size.free_radius() - design.free_radius),
        (Change::LoadedRadius, size.loaded_radius() - design.loaded_radius),
    ];
    let changes = &mut document.layout.changes;
    for (change, by) in differences {
        let both = if sides == Sides::Both { 0.0 } else { changes.get(Sides::Both, change) };
        changes.set(sides, change, fine(change, by - both));
    }
}

/// All changes to the digits that a link carries.
fn all_fine(mut changes: Changes) -> Changes {
    for (sides, change, by) in changes.clone().iter() {
        changes.set(sides, change, fine(change, by));
    }
    changes
}

/// A change to the digits that a link carries: thousandths of a mm, ten-thousandths of a degree.
fn fine(change: Change, by: f64) -> f64 {
    let digits = if change.unit() == "°" { 1e4 } else { 1e3 };
    if by.is_finite() { (by * digits).round() / digits } else { 0.0 }
}
