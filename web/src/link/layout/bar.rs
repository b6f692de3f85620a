//! The anti-roll bar in a link.

use crate::link::parameter::Parameter;
use crate::link::reader::{MOST, Reader};
use crate::link::topic::Topic;
use crate::link::words::first;
use crate::link::writer::{Writer, numbers, points};
use kernel::field::{self, BAR};
use kernel::{AntiRollBar, Layout, SpringOn, Vec3};

/// The part the drop link rides on, bearing x y z, lever end x y z, lower link joint x y z, stiffness (N·m/°; 0: that of the diameter), diameter.
const KEY: Parameter = Parameter::optional("bar");

/// The bar.
pub const TOPIC: Topic<Layout> =
    Topic::new(write, |link, layout| layout.anti_roll_bar = link.take(KEY).and_then(|text| read(link, &text)));

fn write(layout: &Layout, link: &mut Writer) {
    let Some(bar) = &layout.anti_roll_bar else { return };
    let joints = points(&[bar.pivot, bar.lever, bar.link]);
    link.put(KEY, format!("{}_{joints}_{}", bar.on.name(), numbers(&field::values(bar, &BAR))));
}

fn read(link: &mut Reader, text: &str) -> Option<AntiRollBar> {
    let Some((on, rest)) = first(SpringOn::ALL, text) else {
        link.wrong(KEY, text, "a part the drop link is mounted on and eleven numbers");
        return None;
    };
    let [a, b, c, d, e, f, g, h, i, rest @ ..]: [f64; 11] = link.parse(KEY, rest, MOST)?;
    let (pivot, lever, link) = (Vec3::new(a, b, c), Vec3::new(d, e, f), Vec3::new(g, h, i));
    let bar = AntiRollBar { pivot, lever, link, on, stiffness: None, diameter: AntiRollBar::DIAMETER };
    Some(field::with(bar, &BAR, &rest))
}
