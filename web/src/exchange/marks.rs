//! The teacher's table of what was handed in: a column a mark, as it is shown, copied and saved for a spreadsheet.

use crate::work::hand_ins::{Came, Row};
use std::collections::BTreeSet;

/// A cell: a plain number, or text.
#[derive(Clone, Debug, PartialEq)]
pub enum Entry {
    /// A number with a decimal point.
    Number(String),
    /// Text.
    Text(String),
}

impl Entry {
    /// As the page shows it.
    pub fn text(&self) -> &str {
        let (Entry::Number(text) | Entry::Text(text)) = self;
        text
    }

    /// As a spreadsheet reads it. Text that it would take for a formula gets an apostrophe in front: it came from outside.
    fn told(&self, comma: bool) -> String {
        match self {
            Entry::Number(number) if comma => number.replace('.', ","),
            Entry::Number(number) => number.clone(),
            Entry::Text(text) => {
                let mut signs = text.chars();
                let formula = match signs.next() {
                    Some('=' | '@') => true,
                    Some('+' | '-') => !signs.next().is_some_and(|next| next.is_ascii_digit()),
                    _ => false,
                };
                format!("{}{text}", if formula { "'" } else { "" })
            }
        }
    }
}

/// What stands in a column of every row.
type Of = fn(&Row) -> String;

/// The columns before the readings.
const COLUMNS: [(&str, Of); 11] = [
    ("line", |row| row.line.to_string()),
    ("name", |row| row.name.clone()),
    ("exercise", |row| row.title.clone()),
    ("target reached", |row| row.target.word().into()),
    ("answer", |row| row.typed.clone()),
    ("number right", |row| row.number.word().into()),
    ("first answer", |row| row.first.clone()),
    ("prediction: sign right", |row| row.sign.word().into()),
    ("prediction: size right", |row| row.size.word().into()),
    ("hint used", |row| if row.hinted { "yes".into() } else { String::new() }),
    ("written answer given", |row| row.written.word().into()),
];

/// The lesson of most rows, the first of several that are as many; of the others it is said that they are of another.
fn chief(rows: &[Row]) -> &str {
    let read = || rows.iter().filter(|row| row.fault.is_empty()).map(|row| row.lesson.as_str());
    let mut best = ("", 0);
    for lesson in read() {
        let count = read().filter(|other| *other == lesson).count();
        if count > best.1 {
            best = (lesson, count);
        }
    }
    best.0
}

/// The table, heads first. A column without anything in it is left out, but for the names.
pub fn table(rows: &[Row]) -> Vec<Vec<Entry>> {
    let chief = chief(rows);
    let mut names: Vec<&str> = Vec::new();
    for (name, _) in rows.iter().flat_map(|row| &row.readings) {
        if !names.contains(&name.as_str()) {
            names.push(name);
        }
    }
    let mut titles = rows.iter().filter(|row| row.fault.is_empty()).map(|row| &row.title);
    let first = titles.next();
    let several = titles.any(|title| Some(title) != first);
    let line = |row: &Row| -> Vec<Entry> {
        let cell = |(name, of): &(&str, Of)| match *name {
            "line" => Entry::Number(of(row)),
            "exercise" if !several => Entry::Text(String::new()),
            _ => Entry::Text(of(row)),
        };
        let value = |name: &&str| {
            let value = row.readings.iter().find(|(known, _)| known == name);
            Entry::Number(value.map_or(String::new(), |(_, value)| value.clone()))
        };
        let last = [row.words.clone(), remark(row, chief)].map(Entry::Text);
        COLUMNS.iter().map(cell).chain(names.iter().map(value)).chain(last).collect()
    };
    let heads = COLUMNS.iter().map(|(name, _)| *name).chain(names.iter().copied()).chain(["written answer", "remark"]);
    let body: Vec<Vec<Entry>> = rows.iter().map(line).collect();
    let kept: Vec<bool> = heads
        .clone()
        .enumerate()
        .map(|(at, name)| name == "name" || body.iter().any(|row| !row[at].text().is_empty()))
        .collect();
    let whole = std::iter::once(heads.map(|name| Entry::Text(name.into())).collect()).chain(body);
    let keep = |row: Vec<Entry>| row.into_iter().zip(&kept).filter(|(_, kept)| **kept).map(|(cell, _)| cell).collect();
    whole.map(keep).collect()
}

/// What is remarked of a row.
fn remark(row: &Row, chief: &str) -> String {
    if !row.fault.is_empty() {
        return format!("line {} can’t be read: {}", row.line, row.fault);
    }
    let other = if row.lesson == chief { "" } else { "another lesson" };
    [other, &row.again, &row.trouble].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("; ")
}

/// How the class did, in sentences: of the lesson of most, each hand-in once.
pub fn overview(rows: &[Row]) -> String {
    let chief = chief(rows);
    let counted: Vec<&Row> =
        rows.iter().filter(|row| row.fault.is_empty() && row.lesson == chief && row.again.is_empty()).collect();
    let lines: BTreeSet<usize> = counted.iter().map(|row| row.line).collect();
    let all = lines.len();
    let asked = |what: &str, came: fn(&Row) -> Came| {
        let of = counted.iter().filter(|row| came(row) != Came::Unasked).count();
        let right = counted.iter().filter(|row| came(row) == Came::Yes).count();
        (of > 0).then(|| format!("{what}: {right} of {of}."))
    };
    let marks = [
        asked("Target reached", |row| row.target),
        asked("Number right", |row| row.number),
        asked("Prediction, sign right", |row| row.sign),
        asked("Prediction, size right", |row| row.size),
        asked("Written answer given", |row| row.written),
    ];
    let hints = counted.iter().filter(|row| row.hinted).count();
    let hints = (hints > 0).then(|| format!("Hint used: {hints}."));
    let lines = |of: &dyn Fn(&Row) -> bool| {
        let lines: BTreeSet<usize> = rows.iter().filter(|row| of(row)).map(|row| row.line).collect();
        lines.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
    };
    let said = |what: &str, lines: String| (!lines.is_empty()).then(|| format!("{what}: line {lines}."));
    let others = [
        said("Handed in again", lines(&|row| row.fault.is_empty() && row.lesson == chief && !row.again.is_empty())),
        said("Of another lesson", lines(&|row| row.fault.is_empty() && row.lesson != chief)),
        said("Not readable", lines(&|row| !row.fault.is_empty())),
    ];
    let counted = (all > 0).then(|| format!("Hand-ins: {all}."));
    let parts = [counted].into_iter().chain(marks).chain([hints]).chain(others);
    parts.flatten().collect::<Vec<_>>().join(" ")
}

/// For the clipboard: tabs between cells.
pub fn tabbed(rows: &[Row], comma: bool) -> String {
    let line = |cells: &Vec<Entry>| cells.iter().map(|cell| cell.told(comma)).collect::<Vec<_>>().join("\t");
    table(rows).iter().map(line).collect::<Vec<_>>().join("\n")
}

/// For a file, by RFC 4180; with a decimal comma, semicolons stand between cells, as spreadsheets of such places expect.
pub fn csv(rows: &[Row], comma: bool) -> String {
    let between = if comma { ";" } else { "," };
    let quoted = |text: String| {
        if text.contains(['"', ',', ';', '\n', '\r']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
    };
    let line = |cells: &Vec<Entry>| {
        let number = |cell: &Entry| matches!(cell, Entry::Number(_));
        let told = |cell: &Entry| if number(cell) { cell.told(comma) } else { quoted(cell.told(comma)) };
        cells.iter().map(told).collect::<Vec<_>>().join(between) + "\r\n"
    };
    // A spreadsheet takes it for UTF-8 by its first sign.
    format!("\u{feff}{}", table(rows).iter().map(line).collect::<String>())
}
