//! How long a link may be: one limit for who writes it and who reads it.

use super::write;
use crate::document::Document;

/// Longest link that is read, characters. Twelve shots of own axles, with notes and captions as long as they can be in a script of four bytes
/// a letter, take 400,000; browsers take a million and more in an address.
const LONGEST: usize = 500_000;

/// Left free of it by who writes, for numbers that get more digits when the axle is moved.
const SPARE: usize = 10_000;

/// What there is to say of a change that would make a document's link too long; `None` if it is not, or gets shorter.
pub fn too_long(document: &Document, before: &Document) -> Option<String> {
    let (length, most) = (write(document).len(), LONGEST - SPARE);
    (length > most && length > write(before).len()).then(|| {
        format!(
            "This was not added: the link would have {length} characters, and at most {most} can be saved and opened again. Shorten a note or a caption, or remove a slide."
        )
    })
}

/// What there is to say of a link of this length, if it is too long to be read.
pub(super) fn refused(length: usize) -> Option<String> {
    let says =
        format!("The link has {length} characters; more than {LONGEST} are not read. The four-arm demo is shown.");
    (length > LONGEST).then_some(says)
}
