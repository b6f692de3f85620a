//! The half-shaft in a link.

use crate::link::parameter::Parameter;
use crate::link::reader::Reader;
use crate::link::topic::Topic;
use crate::link::writer::{Writer, points};
use crate::text::number::plain;
use kernel::{HalfShaft, LIMIT, Layout, Vec3};

/// Inner joint x y z, outer joint x y z, y of an unequal right shaft’s inner joint.
const KEY: Parameter = Parameter::optional("shaft");

/// The half-shaft.
pub const TOPIC: Topic<Layout> =
    Topic::new(write, |link, layout| layout.half_shaft = link.take(KEY).and_then(|text| read(link, &text)));

fn write(layout: &Layout, link: &mut Writer) {
    let Some(shaft) = &layout.half_shaft else { return };
    let right = shaft.right_inner_y.map_or(String::new(), |y| format!("_{}", plain(y)));
    link.put(KEY, points(&[shaft.inner, shaft.outer]) + &right);
}

fn read(link: &mut Reader, text: &str) -> Option<HalfShaft> {
    // Six numbers, or seven.
    let count = if text.split('_').count() == 7 { 7 } else { 6 };
    let numbers = link.list(KEY, text, count, LIMIT)?;
    let [a, b, c, d, e, f, right @ ..] = &numbers[..] else { return None };
    let (inner, outer) = (Vec3::new(*a, *b, *c), Vec3::new(*d, *e, *f));
    Some(HalfShaft { inner, outer, right_inner_y: right.first().copied() })
}
