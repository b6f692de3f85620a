//! Marking what students hand in: a piece a link, a line of the answer a row of the teacher's table, with tabs between its cells. No cell holds
//! either: names are of one line (`kernel::clean`), and words are put into one.

mod row;

pub use row::{Came, Row};

use super::Job;
use crate::content::demos;
use crate::document::Document;
use crate::document::lesson::Lesson;
use crate::document::place::Place;
use crate::link;
use crate::study::Study;
use crate::study::value::value_at;
use crate::text::number::{Units, plain};
use crate::text::typed::Kind;
use kernel::Reading;
use std::collections::{BTreeMap, VecDeque};

/// What its tasks begin with.
pub const NAME: &str = "hand-ins";

/// So many links are marked; lines behind them are left.
const MOST: usize = 200;

/// The task for what a teacher pasted, a link a line.
pub fn task(pasted: &str) -> String {
    format!("{NAME}\n{pasted}")
}

/// The rows that (a part of) the answer holds.
pub fn rows(answer: &str) -> impl Iterator<Item = Row> {
    answer.lines().filter_map(Row::read)
}

/// The links to be marked.
struct HandIns {
    left: VecDeque<(usize, String)>,
    all: usize,
    /// Links that have been marked, and whose lesson was, by the line they stood in.
    links: BTreeMap<String, usize>,
    names: BTreeMap<[String; 2], usize>,
}

/// Reads a task.
pub fn start(pasted: &str) -> Result<Box<dyn Job>, String> {
    let lines = pasted.lines().map(str::trim).enumerate().filter(|(_, line)| !line.is_empty()).take(MOST);
    let left: VecDeque<(usize, String)> = lines.map(|(at, line)| (at + 1, line.to_string())).collect();
    let (links, names) = Default::default();
    Ok(Box::new(HandIns { all: left.len(), left, links, names }))
}

impl Job for HandIns {
    fn pieces(&self) -> usize {
        self.all
    }

    fn step(&mut self) -> String {
        let Some((line, pasted)) = self.left.pop_front() else { return String::new() };
        let mut rows = marked(&pasted);
        for row in &mut rows {
            row.line = line;
            self.remark(&pasted, row);
        }
        self.links.entry(pasted).or_insert(line);
        rows.iter().map(Row::text).collect()
    }
}

impl HandIns {
    /// Says if it has been handed in before.
    fn remark(&mut self, pasted: &str, row: &mut Row) {
        if !row.fault.is_empty() {
            return;
        }
        let whose = [row.lesson.clone(), row.name.trim().to_ascii_lowercase()];
        let again = self.names.get(&whose).filter(|before| **before != row.line && !row.name.trim().is_empty());
        row.again = match (self.links.get(pasted), again) {
            (Some(before), _) => format!("the same as line {before}"),
            (None, Some(before)) => format!("handed in before, line {before}"),
            (None, None) => String::new(),
        };
        self.names.entry(whose).or_insert(row.line);
    }
}

/// A line that a teacher pasted, marked: a row an exercise.
fn marked(pasted: &str) -> Vec<Row> {
    let fault = |fault: &str, name: String| vec![Row { fault: fault.into(), name, ..Row::default() }];
    let Some((_, parameters)) = pasted.split_once(['#', '?']) else {
        return fault("there is no link in it", String::new());
    };
    let Some((document, faults)) = link::read(parameters) else {
        return fault("the link is empty", String::new());
    };
    if !link::whole(parameters) {
        return fault("the link was cut off", document.answer.by);
    }
    if document.lesson.is_none() {
        return fault(faults.first().map_or("the link has no lesson", String::as_str), String::new());
    }
    let (exercises, _) = document.exercises();
    let name =
        exercises.iter().map(|exercise| &exercise.answer.by).find(|by| !by.is_empty()).cloned().unwrap_or_default();
    let all = document.lessons().into_iter().map(key).collect::<Vec<_>>().join("-");
    let told = |exercise: &Document| Some(row(exercise, exercise.lesson.as_ref()?));
    let rows = exercises.iter().filter_map(told);
    rows.map(|row| Row { name: name.clone(), lesson: all.clone(), ..row }).collect()
}

/// What is told of one exercise.
fn row(document: &Document, lesson: &Lesson) -> Row {
    let (answer, marks) = (&document.answer, lesson.marking(document));
    let guessed = |at: usize| match (&marks.prediction, marks.guess) {
        (None, _) => Came::Unasked,
        (Some(_), None) => Came::Open,
        (Some(_), Some(right)) => {
            if right[at] {
                Came::Yes
            } else {
                Came::No
            }
        }
    };
    let written = match (&marks.words, answer.words.trim().is_empty()) {
        (None, _) => Came::Unasked,
        (Some(_), empty) => {
            if empty {
                Came::No
            } else {
                Came::Yes
            }
        }
    };
    let study = Study::new(document, demos::opening);
    // What does not close has no readings; what closed last is another axle's.
    let trouble =
        study.trouble.as_ref().map_or(String::new(), |trouble| format!("can’t be assembled: {}", trouble.sentence));
    Row {
        trouble,
        title: lesson.title(),
        target: Came::of(marks.targets.as_ref()),
        number: Came::of(marks.number.as_ref()),
        typed: answer.guess.clone(),
        first: answer.first.clone().unwrap_or_default(),
        sign: guessed(0),
        size: guessed(1),
        hinted: answer.hinted,
        written,
        words: answer.words.clone(),
        readings: if study.trouble.is_some() { Vec::new() } else { readings(document, lesson) },
        ..Row::default()
    }
}

/// Marks a lesson by all that a student does not change.
fn key(lesson: &Lesson) -> String {
    let text = format!("{}{:?}{:?}{:?}", lesson.task, lesson.aims, lesson.number, lesson.free);
    let hash = text
        .bytes()
        .fold(0xCBF2_9CE4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x100_0000_01B3));
    format!("{hash:x}")
}

/// The readings that are aimed at, where they are judged, and the others pinned, where the axle is shown: in mm and degrees, whatever a student
/// looked at.
fn readings(document: &Document, lesson: &Lesson) -> Vec<(String, String)> {
    let aims = lesson.aims.iter().map(|aim| (aim.column, aim.place));
    let pinned = document.pinned.iter().filter(|column| lesson.aims.iter().all(|aim| aim.column != **column));
    let all = aims.chain(pinned.map(|column| (*column, Place::of(document))));
    let told = |(column, place): (&'static str, Place)| {
        let (reading, units) = (Reading::named(column)?, Units::default());
        let (decimals, factor, _) = units.shown(reading);
        let round = 10.0_f64.powi(decimals as i32);
        let value = value_at(document, place, reading).map(|value| plain((value * factor * round).round() / round));
        let unit = Kind::of(reading.unit).name(units);
        let at = if place == Place::default() { String::new() } else { format!(" {}", place.words(units)) };
        let unit = if unit.is_empty() { String::new() } else { format!(" ({unit})") };
        Some((format!("{}{unit}{at}", reading.full_name()), value.unwrap_or_default()))
    };
    all.filter_map(told).collect()
}
