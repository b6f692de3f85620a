//! A layout in a link.

mod bar;
mod car;
mod guide;
mod plain;
mod rack;
mod shaft;
mod spring;
mod title;
mod wheel;

use super::reader::Reader;
use super::topic::{self, Topic};
use super::writer::Writer;
use crate::content::demos;
use crate::document::Document;
use kernel::Layout;
use std::collections::BTreeMap;

/// What a link says of a layout, in its order. A part that the axle does not have is not in its link.
const TOPICS: [Topic<Layout>; 12] = [
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
];

/// The document's own layout.
pub const TOPIC: Topic<Document> =
    Topic::new(|document, link| write(&document.layout, link), |link, document| document.layout = read(link));

/// Writes a layout.
pub fn write(layout: &Layout, link: &mut Writer) {
    topic::write(&TOPICS, layout, link);
}

/// Reads a layout; what is missing or wrong comes from the demos.
pub fn read(link: &mut Reader) -> Layout {
    let mut layout = Layout { note: String::new(), other: BTreeMap::new(), ..demos::first() };
    topic::read(&TOPICS, link, &mut layout);
    layout
}
