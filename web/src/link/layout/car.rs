//! The vehicle in a link.

use crate::link::absent::{CAR, unless};
use crate::link::parameter::Parameter;
use crate::link::reader::{MOST, Reader};
use crate::link::topic::Topic;
use crate::link::words::{first, last, word};
use crate::link::writer::{Writer, numbers};
use kernel::field::{self, VEHICLE};
use kernel::{Drive, Layout, RollFrom, Vehicle};

/// `front`, `rear` or `all` driven; wheelbase, mass, front share, height of the centre of gravity, brake share, unsprung mass, rear roll centre
/// height, roll stiffness, its front share, steering efficiency, body width, front overhang; then, unless all is as usual (0 and `numbers`),
/// pneumatic trail and `numbers` or `axle`, where the front roll stiffness is from.
const KEY: Parameter = Parameter::optional("car");

/// How many of the vehicle's numbers every link has; of later ones an older link has fewer.
const ALWAYS: usize = 12;

/// The vehicle.
pub const TOPIC: Topic<Layout> = Topic::new(write, |link, layout| {
    layout.vehicle = match link.take(KEY) {
        Some(text) => read(link, &text),
        None if link.version >= 3 => unless(CAR, Vehicle::default()),
        None => None,
    };
});

fn write(layout: &Layout, link: &mut Writer) {
    let unsaid = || unless(Vehicle::default(), CAR).filter(|_| link.version >= 3);
    let Some(vehicle) = &layout.vehicle.or_else(unsaid) else { return };
    let drive = word(Drive::ALL, vehicle.drive);
    let (values, frozen) = (field::values(vehicle, &VEHICLE), field::values(&CAR, &VEHICLE));
    let usual = vehicle.roll_stiffness_from == CAR.roll_stiffness_from && values[ALWAYS..] == frozen[ALWAYS..];
    let values = numbers(if usual { &values[..ALWAYS] } else { &values });
    let from = if usual { String::new() } else { format!("_{}", word(RollFrom::ALL, vehicle.roll_stiffness_from)) };
    link.put(KEY, format!("{drive}_{values}{from}"));
}

fn read(link: &mut Reader, text: &str) -> Option<Vehicle> {
    let Some((drive, rest)) = first(Drive::ALL, text) else {
        link.wrong(KEY, text, "front, rear or all and twelve numbers");
        return None;
    };
    let (rest, from) = last(RollFrom::ALL, rest).map_or((rest, None), |(rest, from)| (rest, Some(from)));
    let count = from.map_or(ALWAYS, |_| rest.split('_').count().clamp(ALWAYS + 1, VEHICLE.len()));
    let values = link.list(KEY, rest, count, MOST)?;
    let roll_stiffness_from = from.unwrap_or(CAR.roll_stiffness_from);
    Some(Vehicle { drive, roll_stiffness_from, ..field::with(CAR, &VEHICLE, &values) })
}
