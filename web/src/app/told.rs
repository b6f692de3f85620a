//! What may be told of a reading: every way out of the page asks here, so that what a lesson hides stays hidden at all of them.

use crate::app::App;
use crate::content::racks::STEER;
use crate::text::number::Units;
use kernel::{Group, READINGS, Reading, Vec3};

/// A value, or that it is hidden.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Told {
    /// A lesson hides the reading.
    Hidden,
    /// The value; `None` where the axle does not have it.
    Value(Option<f64>),
}

impl Told {
    /// True if there is something to tell.
    pub fn is_some(&self) -> bool {
        *self != Told::Value(None)
    }

    /// The value, if it may be told and there is one.
    pub fn value(self) -> Option<f64> {
        match self {
            Told::Hidden => None,
            Told::Value(value) => value,
        }
    }

    /// What the page shows.
    pub fn text(self, reading: &Reading, units: Units) -> String {
        match self {
            Told::Hidden => "?".into(),
            Told::Value(value) => units.reading(value, reading),
        }
    }

    /// The same with its unit, as a sentence has it.
    pub fn with_unit(self, reading: &Reading, units: Units) -> String {
        match self {
            Told::Hidden => "?".into(),
            Told::Value(value) => units.with_unit(value, reading),
        }
    }
}

impl App {
    /// True while a lesson hides a reading.
    pub fn hides(&self, column: &str) -> bool {
        self.document.lesson.as_ref().is_some_and(|lesson| lesson.hides(&self.document.answer, column))
    }

    /// Some value of a reading.
    pub fn told(&self, reading: &Reading, value: Option<f64>) -> Told {
        if self.hides(reading.column) { Told::Hidden } else { Told::Value(value) }
    }

    /// The value of a reading now, as text.
    pub fn told_now(&self, reading: &Reading) -> String {
        self.told(reading, self.study.good.value(reading)).text(reading, self.document.units)
    }

    /// Every reading now, for other pages; nothing for what is hidden, nor of the whole axle while one wheel is shown.
    pub fn readings(&self) -> impl Iterator<Item = (&'static str, Option<f64>)> + '_ {
        let now =
            |reading: &'static Reading| (reading.column, self.told(reading, self.study.good.value(reading)).value());
        READINGS.iter().map(now)
    }

    /// True while a lesson hides a lever arm: then no moment about the steering axis may be told either.
    pub fn hides_levers(&self) -> bool {
        READINGS.iter().any(|reading| reading.group == Group::LeverArms && self.hides(reading.column))
    }

    /// The pinned readings as the end of a sentence, for who listens; while a mount of the subframe is in hand, what hands on the wheel feel.
    pub fn spoken(&self) -> String {
        let part = |reading: &Reading| {
            let name = reading.full_name().to_ascii_lowercase();
            match self.told(reading, self.study.good.value(reading)) {
                Told::Value(None) => String::new(),
                Told::Hidden => format!("; {name} is hidden"),
                told => format!("; {name} {}", told.text(reading, self.document.units)),
            }
        };
        let felt = Reading::named(STEER).filter(|_| self.mount_in_hand().is_some());
        let pinned = self.document.pinned.iter().filter_map(|column| Reading::named(column));
        felt.into_iter().chain(pinned).map(part).collect()
    }

    /// The joint or mount in hand, where it is, and the pinned readings, for who listens; empty without one.
    pub fn spoken_joint(&self) -> String {
        let joint = self.selected.and_then(|id| Some((id.name().into(), self.document.layout.point(id)?)));
        let mount = self.mount_in_hand().map(|(which, at)| (format!("mount {}", which + 1), at));
        joint.or(mount).map_or(String::new(), |(name, at): (String, Vec3)| {
            let [x, y, z] = [at.x, at.y, at.z].map(|mm| self.document.units.length(mm));
            format!("{name}: x {x}, y {y}, z {z}{}", self.spoken())
        })
    }

    /// The same after a step, where `before` was spoken before it: who listens has to hear that nothing has moved.
    pub fn spoken_step(&self, before: &str) -> String {
        let now = self.spoken_joint();
        if now == before { format!("Not moved. {now}") } else { now }
    }
}
