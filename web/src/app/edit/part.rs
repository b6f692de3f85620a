//! Changes of the layout's parts.

use super::{hundredth, sound};
use crate::app::refusal::Refusal;
use crate::document::Document;
use kernel::{
    Anchor, AntiRollBar, Bush, Damper, Guide, HalfShaft, Layout, Level, Rack, Rocker, Spring, Stops, TyreSize, Vehicle,
    Wheel,
};

/// A change of a part of the layout.
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
    /// The rocker of a spring that has one.
    Rocker(Rocker),
    /// Travels at which bump and rebound stops end the way, mm; or none.
    Stops(Option<Stops>),
    /// The wheel at rest.
    Wheel(Wheel),
    /// The wheel's tyre, by its size.
    Tyre(TyreSize),
    /// The rack, or none: then the axle is not steered.
    Rack(Option<Rack>),
    /// A wishbone becomes two arms, or two arms a wishbone.
    OtherKind(Level),
}

impl Part {
    /// The document after it, if the layout has no problem that it did not have before.
    pub fn on(self, document: &Document) -> Result<Document, Refusal> {
        let guides = matches!(self, Part::Wheel(_) | Part::Tyre(_) | Part::Rack(_) | Part::OtherKind(_));
        if guides && document.sealed() {
            return Err(Refusal::NotInExercise);
        }
        let mut after = document.clone();
        let layout = &mut after.layout;
        match self {
            Part::Vehicle(vehicle) => layout.vehicle = Some(vehicle),
            Part::Damper(damper) => layout.damper = Some(damper),
            Part::HalfShaft(shaft) => layout.half_shaft = shaft,
            Part::Bar(bar) => layout.anti_roll_bar = bar,
            Part::Spring(spring) => layout.spring = *spring,
            Part::Rocker(rocker) => layout.spring.rocker = layout.spring.rocker.and(Some(rocker)),
            Part::Stops(stops) => layout.stops = stops,
            Part::Wheel(wheel) => layout.wheel = wheel,
            Part::Tyre(size) => {
                layout.wheel.width = size.width;
                layout.wheel.free_radius = hundredth(size.free_radius());
                layout.wheel.loaded_radius = hundredth(size.loaded_radius());
            }
            Part::Rack(rack) => {
                layout.rack = rack;
                without_the_other_joint(layout);
                after.rack = after.rack.clamp(-after.rack_travel(), after.rack_travel());
            }
            Part::OtherKind(level) => other_kind(&mut after, level),
        }
        sound(document, after)
    }
}

/// What gives way where the rack is gone, or where the track rod now has its ball joint on one, goes.
fn without_the_other_joint(layout: &mut Layout) {
    let gone = if layout.rack.is_none() { Anchor::Rack } else { Anchor::TrackRod };
    let left = layout.stiffness.get(&gone).map(|bush| Bush { along: bush.along, ..Bush::default() });
    layout.stiffness.remove(&gone);
    if let Some(rod) = left.filter(|rod| gone == Anchor::TrackRod && rod.along.is_some()) {
        layout.stiffness.insert(gone, rod);
    }
    layout.subframe.iter_mut().flat_map(|frame| &mut frame.carries).for_each(|names| names.retain(|at| *at != gone));
}

/// A guide of the other kind, with all that was said of its joints: the arms have the locks and the error of the ball joint; a ball joint is locked
/// where both outer joints were, and as far off as the worse of them.
fn other_kind(document: &mut Document, level: Level) {
    let before = document.layout.guide(level).clone();
    document.layout = document.layout.other_kind(level);
    for variant in &mut document.variants {
        variant.changes = variant.changes.on_other_kind(level, &before);
    }
    let (arms, ball) = (level.outer_joints().to_vec(), vec![level.ball_joint()]);
    let (gone, new) = if matches!(before, Guide::Wishbone { .. }) { (ball, arms) } else { (arms, ball) };
    let locked = std::array::from_fn(|axis| gone.iter().all(|id| document.locked(*id)[axis]));
    let error = gone.iter().map(|id| document.error(*id)).fold(0.0, f64::max);
    for id in gone {
        document.lock(id, [false; 3]);
        document.set_error(id, 0.0);
    }
    for id in new {
        document.lock(id, locked);
        document.set_error(id, error);
    }
    if let Some(lesson) = &mut document.lesson {
        lesson.free.retain(|free| document.layout.point(free.point).is_some());
    }
}
