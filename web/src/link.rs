//! Document ↔ the parameters of a link. Versioned, total, never panics; every fault gets a sentence and the rest opens.
//!
//! - version 2 says every value: `v=2&name=…&note=…&wheel=0_765_305_-0.5_0.1_305_316_205&lower=arms&lf=…& … &travel=0&rack=0&end=1`;
//! - version 3 says what differs: `v=3&of=strut.1&c=ws_20~rh_30&cl=ltr_-2.1&end=1`, and is written for what version 2 cannot say.
//!
//! A file a topic, its writing and its reading side by side. Each names its parameters once, above both, and says what they hold: numbers joined
//! by `_` (mm, degrees, N/mm), codes and names joined by `.`, groups of them by `~`; in text `_` is a space. A table of topics is the order of a
//! link: `TOPICS` here that of a document, the one in `link/layout.rs` that of a layout, which also stands behind `b.` (the layout that is laid over)
//! `a0.` to `a2.` (the axles that stand beside it) and `s0.`, `s1.`, … (the shots of a story); the other exercises of a series stand behind `x0.`, `x1.`, …; changes stand behind `w0.`, `w1.`, … (variants) too.
//!
//! In version 3 a layout is `of` a demo of `link/frozen.rs`, by its file’s name and its version, or whole; what is absent stands in the demo, else in
//! the tables of `link/absent.rs`, all of them frozen; `none` takes a part of the demo away. New are `c`, `cl`, `cr` (changes of both sides, left,
//! right, ride height among them), `adj` and `tight`, `bush`, `frame` with `carry`, `box`, `solid`, `kept` (what those cannot say), variants, `side`,
//! `hands`. What forums put behind a link is forgiven (`link/forum.rs`); `end` says that it has come whole.
//!
//! Version 1 had no `errors`, `rocker`, `damper`, `bar`, `shaft`, `car`, `axle`, `load` and `end`, wrote spaces as `%20` and pins with their units.
//! Only the characters `A–Z a–z 0–9 - _ . ~ = & %` occur, the last is a digit.

mod absent;
mod answer;
mod beside;
mod built;
mod compare;
mod curves;
mod forum;
mod frozen;
mod layout;
mod length;
mod lesson;
mod loads;
mod parameter;
mod points;
mod position;
mod reader;
mod readings;
mod series;
mod story;
mod topic;
mod units;
mod variants;
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
const TOPICS: [Topic<Document>; 18] = [
    version::TOPIC,
    layout::TOPIC,
    variants::TOPIC,
    compare::TOPIC,
    beside::TOPIC,
    story::TOPIC,
    lesson::TOPIC,
    answer::TOPIC,
    series::TOPIC,
    position::RIDE,
    points::TOPIC,
    curves::TOPIC,
    units::TOPIC,
    built::TOPIC,
    position::AXLE,
    loads::TOPIC,
    position::PLACE,
    length::TOPIC,
];

/// The parameters of a document, without `#` or `?`.
pub fn write(document: &Document) -> String {
    let mut link = Writer::new(version::of(document));
    topic::write(&TOPICS, document, &mut link);
    link.finish()
}

/// True if a link says at its end that it has come whole, or is of the version that said nothing.
pub fn whole(parameters: &str) -> bool {
    let parameters = forum::forgiven(parameters);
    parameters.ends_with("&end=1") || parameters.starts_with("v=1&")
}

/// Reads a link's parameters, with or without a leading `#` or `?`. `None` for a link that carries no layout at all.
/// The sentences say what was wrong and what stands in its place.
pub fn read(parameters: &str) -> Option<(Document, Vec<String>)> {
    if let Some(fault) = length::refused(parameters.len()) {
        return Some((demos::opening(), vec![fault]));
    }
    let parameters = &forum::forgiven(parameters.trim_start_matches(['#', '?']));
    if parameters.is_empty() {
        return None;
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
