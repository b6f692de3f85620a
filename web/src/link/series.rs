//! The other exercises of a series, each a document's exercise and answer.

use super::absent;
use super::parameter::Parameter;
use super::reader::Reader;
use super::topic::{self, Topic};
use super::writer::Writer;
use super::{answer, compare, curves, layout, lesson, points, position};
use crate::content::demos;
use crate::document::Document;
use crate::document::series::{MOST_EXERCISES, Series};

/// How many exercises stand before the one that the link shows.
const NTH: Parameter = Parameter::optional("nth");

/// What a link says of each exercise.
const TOPICS: [Topic<Document>; 8] = [
    layout::TOPIC,
    compare::TOPIC,
    lesson::TOPIC,
    answer::TOPIC,
    points::TOPIC,
    curves::TOPIC,
    position::AXLE,
    position::PLACE,
];

/// The others in order, behind `x0.`, `x1.`, …, since version 3.
pub const TOPIC: Topic<Document> = Topic::new(write, read);

/// What the names of an exercise's parameters begin with.
fn prefix(at: usize) -> String {
    format!("x{at}.")
}

fn write(document: &Document, link: &mut Writer) {
    let series = &document.series;
    if series.is_empty() {
        return;
    }
    link.put(NTH, series.before.len().to_string());
    for (at, exercise) in series.others().enumerate() {
        link.within(&prefix(at), |link| {
            link.assume(&absent::DOCUMENT);
            topic::write(&TOPICS, exercise, link);
        });
    }
}

fn read(link: &mut Reader, document: &mut Document) {
    let exercise = |at| {
        let prefix = prefix(at);
        link.has_any(&prefix).then(|| {
            link.within(&prefix, |link| {
                link.assume(&absent::DOCUMENT);
                let mut exercise = demos::opening();
                topic::read(&TOPICS, link, &mut exercise);
                exercise
            })
        })
    };
    let mut before: Vec<Document> = (0..MOST_EXERCISES - 1).map_while(exercise).collect();
    let Some(text) = link.take(NTH) else {
        document.series = Series { before: Vec::new(), after: before };
        return;
    };
    let nth = text.parse().ok().filter(|nth| *nth <= before.len()).unwrap_or_else(|| {
        link.wrong(NTH, &text, "a place in the series");
        0
    });
    let after = before.split_off(nth);
    document.series = Series { before, after };
}
