//! What a student has answered.

use super::parameter::Parameter;
use super::reader::Reader;
use super::topic::Topic;
use super::writer::Writer;
use crate::document::Document;
use crate::document::lesson::{Answer, Lesson};
use crate::text::number::Units;
use kernel::{LONGEST_NAME, LONGEST_NOTE};

/// Text: the name of who answers.
const BY: Parameter = Parameter::optional("by");

/// Text: the number answered, with its unit.
const GUESS: Parameter = Parameter::optional("guess");

/// Text: the words.
const SAID: Parameter = Parameter::optional("said");

/// 1: the answer has been checked.
const CHECKED: Parameter = Parameter::optional("checked");

/// 1: what was hidden is shown.
const SHOWN: Parameter = Parameter::optional("shown");

/// Text: the number answered when what is hidden was shown.
const FIRST: Parameter = Parameter::optional("first");

/// 1: the hint was asked for.
const HINTED: Parameter = Parameter::optional("hinted");

/// Text: whose start it is, where starts vary.
const VARIANT: Parameter = Parameter::optional("variant");

/// Read last: what is answered depends on the lesson, and older answers are in the units shown.
pub const TOPIC: Topic<Document> = Topic::last(
    |document, link| {
        if document.lesson.is_some() {
            write(&document.answer, link);
        }
    },
    |link, document| {
        if let Some(lesson) = &document.lesson {
            document.answer = read(link, lesson, document.units);
        }
    },
);

/// Longest number with its unit, characters.
const LONGEST_NUMBER: usize = 60;

fn write(answer: &Answer, link: &mut Writer) {
    link.text_if(BY, &answer.by);
    link.text_if(GUESS, &answer.guess);
    link.text_if(SAID, &answer.words);
    link.flag(CHECKED, answer.checked);
    link.flag(SHOWN, answer.first.is_some());
    if let Some(first) = &answer.first {
        link.text(FIRST, first);
    }
    link.flag(HINTED, answer.hinted);
    link.text_if(VARIANT, &answer.variant);
}

fn read(link: &mut Reader, lesson: &Lesson, units: Units) -> Answer {
    let by = link.text(BY, LONGEST_NAME).unwrap_or_default();
    let words = link.text(SAID, LONGEST_NOTE).unwrap_or_default();
    // Of before units were written, a number is in what was shown.
    let with_unit = |text: String| lesson.asks().map_or(text.clone(), |kind| kind.with_unit(&text, units));
    let guess = link.text(GUESS, LONGEST_NUMBER).map(with_unit).unwrap_or_default();
    let first = link.text(FIRST, LONGEST_NUMBER).map(with_unit);
    let shown = link.flag(SHOWN);
    let first = shown.then(|| first.unwrap_or_else(|| guess.clone()));
    let variant = link.text(VARIANT, LONGEST_NUMBER).unwrap_or_default();
    Answer { variant, checked: link.flag(CHECKED) || shown, hinted: link.flag(HINTED), by, guess, words, first }
}
