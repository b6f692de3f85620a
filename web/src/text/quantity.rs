//! What a reading is called, of one wheel or of the whole axle.

use kernel::{Group, READINGS, Reading, Unit, Whole};

/// A reading of one wheel or of the whole axle.
#[derive(Clone, Copy)]
pub enum Quantity {
    /// Of the left wheel.
    Wheel(&'static Reading),
    /// Of the whole axle.
    Axle(&'static Reading<Whole>),
}

impl Quantity {
    /// The reading of a column, or of a column without its unit.
    pub fn named(name: &str) -> Option<Quantity> {
        let wheel = READINGS.iter().find(|reading| reading.column == name || reading.short() == name);
        wheel.map(Quantity::Wheel).or_else(|| Reading::of_axle(name).map(Quantity::Axle))
    }

    /// Its column.
    pub fn column(self) -> &'static str {
        match self {
            Quantity::Wheel(reading) => reading.column,
            Quantity::Axle(reading) => reading.column,
        }
    }

    /// Its column without its unit.
    pub fn short(self) -> &'static str {
        match self {
            Quantity::Wheel(reading) => reading.short(),
            Quantity::Axle(reading) => reading.short(),
        }
    }

    /// Its name on the page.
    pub fn name(self) -> &'static str {
        match self {
            Quantity::Wheel(reading) => reading.name,
            Quantity::Axle(reading) => reading.name,
        }
    }

    /// Its name where no heading stands above it.
    pub fn full_name(self) -> String {
        match self {
            Quantity::Wheel(reading) if reading.group == Group::LeverArms => format!("{} lever arm", reading.name),
            _ => self.name().into(),
        }
    }

    /// Its unit.
    pub fn unit(self) -> Unit {
        match self {
            Quantity::Wheel(reading) => reading.unit,
            Quantity::Axle(reading) => reading.unit,
        }
    }
}
