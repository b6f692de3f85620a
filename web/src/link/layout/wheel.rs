//! The wheel in a link.

use crate::link::parameter::Parameter;
use crate::link::reader::Reader;
use crate::link::topic::Topic;
use crate::link::writer::Writer;
use kernel::field::{self, WHEEL};
use kernel::{LIMIT, Layout, Vec3, Wheel};

/// Centre x y z, camber, toe, loaded radius, free radius, width.
const KEY: Parameter = Parameter::needed("wheel");

/// Inside radius of the rim’s barrel, where it is given.
const RIM: Parameter = Parameter::optional("rim");

/// The wheel.
pub const TOPIC: Topic<Layout> = Topic::new(write, read);

fn write(layout: &Layout, link: &mut Writer) {
    let wheel = &layout.wheel;
    link.numbers(KEY, &[wheel.centre.as_slice(), &field::values(wheel, &WHEEL)].concat());
    if let Some(radius) = wheel.rim_radius {
        link.numbers(RIM, &[radius]);
    }
}

fn read(link: &mut Reader, layout: &mut Layout) {
    layout.wheel.rim_radius = link.numbers(RIM).map(|[radius]| radius);
    let Some(text) = link.take(KEY) else { return };
    if let Some([x, y, z, rest @ ..]) = link.list(KEY, &text, 3 + WHEEL.len(), LIMIT).as_deref() {
        let wheel = Wheel { centre: Vec3::new(*x, *y, *z), ..layout.wheel.clone() };
        layout.wheel = field::with(wheel, &WHEEL, rest);
    }
}
