//! Document ↔ the parameters of a link. Versioned, total, never panics; every fault gets a sentence and the rest opens.
//!
//! `v=2&name=…&note=…&wheel=0_765_305_-0.5_0.1_305_316_205&lower=arms&lf=…& … &travel=0&rack=0&end=1`
//!
//! A file a topic, its writing and its reading side by side. Each names its parameters once, above both, and says what they hold: numbers joined
//! by `_` (mm, degrees, N/mm), codes and names joined by `.`, groups of them by `~`; in text `_` is a space. A table of topics is the order of a
//! link: `TOPICS` here that of a document, the one in `link/layout.rs` that of a layout, which also stands behind `b.` (the layout that is laid over)
//! and `s0.`, `s1.`, … (the shots of a story).
//!
//! Version 1 had no `errors`, `rocker`, `damper`, `bar`, `shaft`, `car`, `axle`, `load` and `end`, wrote spaces as `%20` and pins with their units.
//! Only the characters `A–Z a–z 0–9 - _ . ~ = & %` occur, the last is a digit, every value is written.

mod answer;
mod compare;
mod curves;
mod layout;
mod length;
mod lesson;
mod loads;
mod parameter;
mod points;
mod position;
mod reader;
mod readings;
mod story;
mod topic;
mod units;
mod version;
mod words;
mod writer;

pub use length::{TooLong, too_long};

use crate::content::demos;
use crate::document::Document;
use reader::Reader;
use topic::Topic;
use writer::Writer;

/// What a link says of a document, in its order.
const TOPICS: [Topic<Document>; 14] = [
    version::TOPIC,
    layout::TOPIC,
    compare::TOPIC,
    story::TOPIC,
    lesson::TOPIC,
    answer::TOPIC,
    position::RIDE,
    points::TOPIC,
    curves::TOPIC,
    units::TOPIC,
    position::AXLE,
    loads::TOPIC,
    position::PLACE,
    length::TOPIC,
];

/// The parameters of a document, without `#` or `?`.
pub fn write(document: &Document) -> String {
    let mut link = Writer::default();
    topic::write(&TOPICS, document, &mut link);
    link.finish()
}

/// Reads a link's parameters, with or without a leading `#` or `?`. `None` for a link that carries no layout at all.
/// The sentences say what was wrong and what stands in its place.
pub fn read(parameters: &str) -> Option<(Document, Vec<String>)> {
    let parameters = parameters.trim_start_matches(['#', '?']);
    if parameters.is_empty() {
        return None;
    }
    if let Some(fault) = length::refused(parameters.len()) {
        return Some((demos::opening(), vec![fault]));
    }
    if version::bare(parameters) {
        return Some((demos::opening(), Vec::new()));
    }
    // What is missing or wrong comes from the demos.
    let (mut document, mut link) = (demos::opening(), Reader::new(parameters));
    topic::read(&TOPICS, &mut link, &mut document);
    // Letters that stand in a link as they are take up to three times the room when it is written anew.
    match length::refused(write(&document).len()) {
        Some(fault) => Some((demos::opening(), vec![fault])),
        None => Some((document, link.finish())),
    }
}
