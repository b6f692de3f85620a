//! What is shown, not what the link is in: lengths, angles, toe.

use super::parameter::Parameter;
use super::topic::Topic;
use crate::document::Document;
use crate::text::number::Units;

/// The usual and the other of each pair in [`WORDS`], joined by `.`.
const KEY: Parameter = Parameter::needed("units");

/// The usual unit and the other one, of lengths, angles and toe.
const WORDS: [[&str; 2]; 3] = [["mm", "in"], ["deg", "min"], ["wheel", "total"]];

/// The units.
pub const TOPIC: Topic<Document> = Topic::new(
    |document, link| {
        let Units { inches, minutes, total_toe } = document.units;
        let others = [inches, minutes, total_toe].into_iter().zip(WORDS);
        link.put(KEY, others.map(|(other, words)| words[usize::from(other)]).collect::<Vec<_>>().join("."));
    },
    |link, document| {
        let Some(text) = link.take(KEY) else { return };
        let other = |(text, [usual, other]): (&str, [&str; 2])| [usual, other].contains(&text).then_some(text == other);
        let others: Option<Vec<bool>> = text.split('.').zip(WORDS).map(other).collect();
        match others.as_deref() {
            Some([inches, minutes, total_toe]) => {
                document.units = Units { inches: *inches, minutes: *minutes, total_toe: *total_toe };
            }
            _ => link.wrong(KEY, &text, "mm or in, deg or min, wheel or total, joined by ."),
        }
    },
);
