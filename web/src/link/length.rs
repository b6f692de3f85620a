//! How long a link may be: one limit for who writes it and who reads it.

use super::write;
use crate::document::Document;

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
pub(super) fn refused(length: usize) -> Option<String> {
    let says =
        format!("The link has {length} characters; more than {LONGEST} are not read. The four-arm demo is shown.");
    (length > LONGEST).then_some(says)
}
