//! The curves: which readings are pinned, and what they run over.

use super::parameter::Parameter;
use super::reader::Reader;
use super::readings;
use super::topic::Topic;
use super::words::{choice, word};
use super::writer::Writer;
use crate::document::{Document, MOST_PINNED, Over};
use kernel::{Reading, clip};

/// Pinned readings.
const PINS: Parameter = Parameter::needed("pins");

/// `travel`, `upright`, `steering`, `roll`.
const OVER: Parameter = Parameter::needed("over");

/// Both.
pub const TOPIC: Topic<Document> = Topic::new(write, |link, document| {
    read_pins(link, document);
    read_over(link, document);
});

fn write(document: &Document, link: &mut Writer) {
    link.put(PINS, readings::write(&document.pinned));
    link.put(OVER, word(Over::ALL, document.over));
}

fn read_pins(link: &mut Reader, document: &mut Document) {
    let Some(text) = link.take(PINS) else { return };
    let mut pinned = Vec::new();
    for column in text.split('.').filter(|column| !column.is_empty()) {
        match Reading::named(column) {
            Some(reading) if pinned.len() < MOST_PINNED && !pinned.contains(&reading.column) => {
                pinned.push(reading.column)
            }
            Some(_) => link.faults.push(format!(
                "The link pins “{column}” twice or pins too many readings; at most {MOST_PINNED} different readings are pinned."
            )),
            None => link.faults.push(format!("The link pins “{}”, which is not a reading.", clip(column))),
        }
    }
    document.pinned = pinned;
}

fn read_over(link: &mut Reader, document: &mut Document) {
    let Some(text) = link.take(OVER) else { return };
    match choice(Over::ALL, &text) {
        Some(over) => document.over = over,
        None => link.wrong(OVER, &text, "travel, upright, steering or roll"),
    }
}
