//! A layout in a link.

mod bar;
mod boxes;
mod bushes;
mod car;
pub mod changes;
mod guide;
mod kept;
mod plain;
mod rack;
mod shaft;
mod short;
mod solid;
mod spring;
mod subframe;
mod title;
mod wheel;

use super::absent;
use super::frozen;
use super::parameter::Parameter;
use super::reader::{NONE, Reader};
use super::topic::{self, Topic};
use super::writer::Writer;
use crate::content::demos;
use crate::document::Document;
use kernel::Layout;
use std::collections::BTreeMap;

/// What a link says of a layout, in its order. A part that the axle does not have is not in its link.
const TOPICS: [Topic<Layout>; 14] = [
    title::TOPIC,
    wheel::TOPIC,
    guide::LOWER,
    guide::UPPER,
    rack::TOPIC,
    spring::TOPIC,
    spring::ROCKER,
    plain::DAMPER,
    bar::TOPIC,
    shaft::TOPIC,
    plain::STOPS,
    car::TOPIC,
    kept::TOPIC,
    changes::TOPIC,
];

/// A demo and its version, joined by `.`: whatever the link does not say of the layout is that demo’s.
const OF: Parameter = Parameter::optional("of");

/// The document's own layout.
pub const TOPIC: Topic<Document> =
    Topic::new(|document, link| write(&document.layout, link), |link, document| document.layout = read(link));

/// Writes a layout; since version 3, of the nearest demo if that is shorter, and only what differs.
pub fn write(layout: &Layout, link: &mut Writer) {
    if link.version < 3 {
        return topic::write(&TOPICS, layout, link);
    }
    let own = pairs(layout);
    let demo = frozen::nearest(&own);
    link.assume(&absent::LAYOUT);
    if let Some(demo) = demo {
        link.put(OF, demo.name);
        link.assume(&demo.pairs);
    }
    topic::write(&TOPICS, layout, link);
    let has = |name: &str| own.iter().any(|(own, _)| own == name);
    let without = demo.iter().flat_map(|demo| &demo.pairs).filter(|(name, _)| !has(name));
    without.for_each(|(name, _)| link.put(Parameter::optional(name), NONE));
}

/// All that a link of version 3 could say of a layout.
fn pairs(layout: &Layout) -> Vec<(String, String)> {
    let mut all = Writer::new(3);
    topic::write(&TOPICS, layout, &mut all);
    all.pairs()
}

/// Reads a layout; what is missing or wrong comes from the demos.
pub fn read(link: &mut Reader) -> Layout {
    if link.version >= 3 {
        link.assume(&absent::LAYOUT);
    }
    if let Some(name) = link.take(OF) {
        let demo = frozen::demo(&name).or_else(|| {
            link.wrong(OF, &name, "a demo that this page knows");
            frozen::demo(frozen::FIRST)
        });
        demo.iter().for_each(|demo| link.assume(&demo.pairs));
    }
    let mut layout = Layout { note: String::new(), other: BTreeMap::new(), ..demos::first() };
    topic::read(&TOPICS, link, &mut layout);
    layout
}
