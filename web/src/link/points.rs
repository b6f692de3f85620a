//! What is known of points: which are locked, and how far measured ones may be off.

use super::parameter::Parameter;
use super::reader::Reader;
use super::topic::Topic;
use super::writer::Writer;
use crate::document::{Document, Lock, MOST_ERROR};
use crate::text::number::plain;
use kernel::{PointId, clip};

/// Codes of locked points, joined by `.`; with `-` and letters, of these coordinates only: `tro.ufi-xz`.
const LOCKS: Parameter = Parameter::needed("locks");

/// Codes of measured points and how far each may be off, mm, joined by `_`: `tro_2_ufi_1.5`.
const ERRORS: Parameter = Parameter::since(2, "errors");

/// The names of the coordinates.
pub const AXES: [char; 3] = ['x', 'y', 'z'];

/// Both.
pub const TOPIC: Topic<Document> = Topic::new(write, |link, document| {
    read_locks(link, document);
    read_errors(link, document);
});

fn write(document: &Document, link: &mut Writer) {
    let lock = |lock: &Lock| {
        let axes: String =
            AXES.into_iter().zip(lock.axes).filter_map(|(axis, locked)| locked.then_some(axis)).collect();
        let code = lock.point.code();
        if lock.axes == [true; 3] { code.into() } else { format!("{code}-{axes}") }
    };
    let error = |(id, error): &(PointId, f64)| format!("{}_{}", id.code(), plain(*error));
    link.put(LOCKS, document.locks.iter().map(lock).collect::<Vec<_>>().join("."));
    link.put(ERRORS, document.errors.iter().map(error).collect::<Vec<_>>().join("_"));
}

fn read_locks(link: &mut Reader, document: &mut Document) {
    let text = link.take(LOCKS).unwrap_or_default();
    for part in text.split('.').filter(|part| !part.is_empty()) {
        let (code, axes) = part.split_once('-').unwrap_or((part, "xyz"));
        let known = axes.chars().all(|axis| AXES.contains(&axis));
        match PointId::coded(code).filter(|_| known) {
            Some(id) => document.lock(id, AXES.map(|axis| axes.contains(axis))),
            None => {
                let (key, part) = (LOCKS.name, clip(part));
                link.faults.push(format!("The link’s “{key}” names “{part}”, which is not a point."));
            }
        }
    }
}

fn read_errors(link: &mut Reader, document: &mut Document) {
    let text = link.take(ERRORS).unwrap_or_default();
    let parts: Vec<&str> = text.split('_').filter(|part| !part.is_empty()).collect();
    for pair in parts.chunks(2) {
        let error = pair.get(1).and_then(|error| error.parse().ok()).filter(|e| (0.0..=MOST_ERROR).contains(e));
        match (PointId::coded(pair[0]), error) {
            (Some(id), Some(error)) => document.set_error(id, error),
            _ => {
                let (key, pair) = (ERRORS.name, clip(&pair.join("_")));
                link.faults.push(format!(
                    "The link’s “{key}” has “{pair}”, not a point’s code and mm up to {MOST_ERROR}; it is left out."
                ));
            }
        }
    }
}
