//! How long a link may be, one limit for who writes it and who reads it; and whether one has come whole.

use super::parameter::Parameter;
use super::reader::Reader;
use super::topic::Topic;
use super::write;
use super::writer::Writer;
use crate::document::Document;

/// 1: nothing has been cut off. Version 1 had none.
const END: Parameter = Parameter::optional("end");

/// Stands at the end of a link.
pub const TOPIC: Topic<Document> = Topic::last(write_end, read_end);

fn write_end(_: &Document, link: &mut Writer) {
    link.flag(END, true);
}

fn read_end(link: &mut Reader, _: &mut Document) {
    let whole = link.take(END).is_some_and(|end| end == "1");
    if link.version >= 2 && !whole && !link.lacks() {
        link.faults.push("The link’s “end” is missing: it may have been cut within its last number.".into());
    }
}

/// Longest link that is read, characters. Twelve shots of own axles, with notes and captions as long as they can be in a script of four bytes
/// a letter, take 400,000; browsers take a million and more in an address.
const LONGEST: usize = 500_000;

/// Left free of it by who writes, for numbers that get more digits when the axle is moved.
const SPARE: usize = 10_000;

/// A link that would be too long to be kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLong {
    /// How long it would be, characters.
    pub length: usize,
    /// How long it may be.
    pub most: usize,
}

/// Whether a change would make a document's link too long; `None` if it would not, or if the link gets shorter.
pub fn too_long(document: &Document, before: &Document) -> Option<TooLong> {
    let (length, most) = (write(document).len(), LONGEST - SPARE);
    (length > most && length > write(before).len()).then_some(TooLong { length, most })
}

/// What there is to say of a link of this length, if it is too long to be read.
pub fn refused(length: usize) -> Option<String> {
    let says =
        format!("The link has {length} characters; more than {LONGEST} are not read. The four-arm demo is shown.");
    (length > LONGEST).then_some(says)
}
