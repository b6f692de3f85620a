//! A topic: what a link says of one thing, its writing and its reading side by side.

use super::reader::Reader;
use super::writer::Writer;

/// A topic of a `T`: of a document or of a layout.
pub struct Topic<T> {
    /// Writes its parameters.
    pub write: fn(&T, &mut Writer),
    /// Reads them into a `T` that holds what stands in for them; total: every fault is told to the reader.
    pub read: fn(&mut Reader, &mut T),
    /// Read only after all others, because what it says depends on them.
    pub last: bool,
}

impl<T> Topic<T> {
    /// A topic that is read in its turn.
    pub const fn new(write: fn(&T, &mut Writer), read: fn(&mut Reader, &mut T)) -> Topic<T> {
        Topic { write, read, last: false }
    }

    /// A topic that is read last.
    pub const fn last(write: fn(&T, &mut Writer), read: fn(&mut Reader, &mut T)) -> Topic<T> {
        Topic { write, read, last: true }
    }
}

/// Writes topics in their order.
pub fn write<T>(topics: &[Topic<T>], of: &T, link: &mut Writer) {
    for topic in topics {
        (topic.write)(of, link);
    }
}

/// Reads topics in their order, those that depend on others at the end.
pub fn read<T>(topics: &[Topic<T>], link: &mut Reader, into: &mut T) {
    for last in [false, true] {
        for topic in topics.iter().filter(|topic| topic.last == last) {
            (topic.read)(link, into);
        }
    }
}
