//! Marking what students hand in: a piece a link, a line of the answer a row of the teacher's table, with tabs between its cells. No text
//! that a link carries holds either (`kernel::clean`).

use super::Job;
use crate::content::demos;
use crate::document::Document;
use crate::link;
use crate::study::Study;
use kernel::Reading;
use std::collections::VecDeque;

/// What its tasks begin with.
pub const NAME: &str = "hand-ins";

/// So many links are marked; lines behind them are left.
const MOST: usize = 200;

/// The task for what a teacher pasted, a link a line.
pub fn task(pasted: &str) -> String {
    format!("{NAME}\n{pasted}")
}

/// The rows that (a part of) the answer holds: name, number, verdict, pinned readings, words.
pub fn rows(answer: &str) -> impl Iterator<Item = Vec<String>> {
    answer.lines().map(|line| line.split('\t').map(String::from).collect())
}

/// The links to be marked.
struct HandIns {
    left: VecDeque<String>,
    all: usize,
}

/// Reads a task.
pub fn start(pasted: &str) -> Result<Box<dyn Job>, String> {
    let lines = pasted.lines().map(str::trim).filter(|line| !line.is_empty()).take(MOST);
    let left: VecDeque<String> = lines.map(String::from).collect();
    Ok(Box::new(HandIns { all: left.len(), left }))
}

impl Job for HandIns {
    fn pieces(&self) -> usize {
        self.all
    }

    fn step(&mut self) -> String {
        let link = self.left.pop_front().unwrap_or_default();
        let parameters = link.split_once(['#', '?']).map_or(&*link, |(_, rest)| rest);
        // What carries nothing to mark gets no row.
        let Some((document, _)) = link::read(parameters) else { return String::new() };
        row(&document).join("\t") + "\n"
    }
}

/// What is told of one hand-in.
fn row(document: &Document) -> [String; 5] {
    let (study, answer) = (Study::new(document, demos::opening), &document.answer);
    let pinned = document.pinned.iter().filter_map(|column| Reading::named(column));
    let values = pinned.map(|reading| {
        format!("{} {}", reading.full_name(), document.units.reading(study.good.value(reading), reading))
    });
    // What does not close has no readings; what closed last is another axle's.
    let values = study.trouble.as_ref().map_or_else(
        || values.collect::<Vec<_>>().join(", "),
        |trouble| format!("can’t be assembled: {}", trouble.sentence),
    );
    let number = match &answer.first {
        Some(first) if *first != answer.guess => format!("first {first}, then {}", answer.guess),
        _ if answer.guess.is_empty() => "–".into(),
        _ => answer.guess.clone(),
    };
    let hinted = answer.hinted.then(|| "The hint was used.".to_string());
    let verdict = document.lesson.as_ref().map(|lesson| {
        lesson.marking(document).lines().into_iter().chain(hinted).collect::<Vec<_>>().join(" ").replace('\n', " ")
    });
    [answer.by.clone(), number, verdict.unwrap_or("no lesson".into()), values, answer.words.clone()]
}
