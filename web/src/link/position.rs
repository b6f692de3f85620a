//! Where the axle is, and where the car stands.

use super::parameter::Parameter;
use super::reader::Reader;
use super::topic::Topic;
use super::writer::{Writer, numbers};
use crate::document::Document;
use crate::document::place::{MOST_TRAVEL, ROLL};
use kernel::{Change, Sides};

/// The travel at which the car stands, mm: all axles of a document alike. Since version 3 it is one of each axle's changes.
const RIDE_KEY: Parameter = Parameter::needed("ride");

/// `one` wheel or `both`, and roll (°).
pub const AXLE_KEY: Parameter = Parameter::since(2, "axle");

/// Travel, mm.
pub const TRAVEL: Parameter = Parameter::needed("travel");

/// Rack, mm.
pub const RACK: Parameter = Parameter::needed("rack");

/// Where the car stands.
pub const RIDE: Topic<Document> = Topic::new(
    |document, link| {
        if link.version < 3 {
            link.numbers(RIDE_KEY, &[document.ride()]);
        }
    },
    |link, document| {
        if link.version >= 3 {
            return;
        }
        let said = link.has(RIDE_KEY);
        let ride = read(link, RIDE_KEY, MOST_TRAVEL);
        if !said {
            return;
        }
        document.set_ride(ride);
        let told = document.story.iter_mut().flat_map(|shot| [&mut shot.layout].into_iter().chain(&mut shot.over));
        let others = document.compared.iter_mut().chain(told);
        others.for_each(|layout| layout.changes.set(Sides::Both, Change::Ride, ride));
    },
);

/// One wheel or both, and roll.
pub const AXLE: Topic<Document> = Topic::new(
    |document, link| write_axle(document.whole, document.roll, link),
    |link, document| {
        if let Some(axle) = read_axle(link) {
            (document.whole, document.roll) = axle;
        }
    },
);

/// Travel and rack.
pub const PLACE: Topic<Document> = Topic::new(
    |document, link| {
        link.numbers(TRAVEL, &[document.travel]);
        link.numbers(RACK, &[document.rack]);
    },
    |link, document| {
        document.travel = read(link, TRAVEL, MOST_TRAVEL);
        document.rack = read(link, RACK, document.rack_travel());
    },
);

/// Reads a position, mm, and keeps it within ±`most`.
pub fn read(link: &mut Reader, parameter: Parameter, most: f64) -> f64 {
    let [value] = link.numbers(parameter).unwrap_or([0.0]);
    if value.abs() > most {
        let name = parameter.name;
        link.faults.push(format!("The link’s “{name}” is {value} mm; this axle allows ±{most} mm; that is shown."));
    }
    value.clamp(-most, most)
}

/// Writes whether both wheels are shown, and roll.
pub fn write_axle(whole: bool, roll: f64, link: &mut Writer) {
    link.put(AXLE_KEY, format!("{}_{}", if whole { "both" } else { "one" }, numbers(&[roll])));
}

/// Reads them.
pub fn read_axle(link: &mut Reader) -> Option<(bool, f64)> {
    let text = link.take(AXLE_KEY)?;
    let (wheels, roll) = text.split_once('_').unwrap_or((&text, "0"));
    let angle = roll.parse().ok().filter(|roll: &f64| roll.abs() <= ROLL);
    match (wheels, angle) {
        ("one" | "both", Some(roll)) => Some((wheels == "both", roll)),
        _ => {
            link.wrong(AXLE_KEY, &text, &format!("one or both and a roll within ±{ROLL}°"));
            None
        }
    }
}
