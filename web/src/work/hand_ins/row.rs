//! A row of the teacher's table: one exercise of one hand-in, marked; as a line of text, and read again.

use crate::study::marking::Mark;

/// How something asked for came out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Came {
    /// It was not asked for.
    #[default]
    Unasked,
    /// Nothing can be said yet.
    Open,
    /// Right, or there.
    Yes,
    /// Wrong, or not there.
    No,
}

/// One exercise of one hand-in, marked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// The line it was pasted in, from 1.
    pub line: usize,
    /// Why the line can't be read; empty if it can.
    pub fault: String,
    /// That it has been handed in before, and where; empty if it has not.
    pub again: String,
    /// Why the axle can’t be assembled; empty if it can.
    pub trouble: String,
    /// Marks the lesson: the same for the same.
    pub lesson: String,
    /// The lesson's title.
    pub title: String,
    /// Whose it is.
    pub name: String,
    /// The targets, all together.
    pub target: Came,
    /// The number, right or wrong.
    pub number: Came,
    /// What was typed.
    pub typed: String,
    /// What was typed first, where that was kept.
    pub first: String,
    /// The prediction's sign.
    pub sign: Came,
    /// Its size.
    pub size: Came,
    /// The hint was used.
    pub hinted: bool,
    /// The written answer.
    pub written: Came,
    /// Its words.
    pub words: String,
    /// Readings by what they are called, each as a plain number, empty where there is none.
    pub readings: Vec<(String, String)>,
}

const CAME: [(Came, &str); 4] = [(Came::Unasked, ""), (Came::Open, "open"), (Came::Yes, "yes"), (Came::No, "no")];

impl Came {
    /// In a word.
    pub fn word(self) -> &'static str {
        CAME.iter().find(|(came, _)| *came == self).map_or("", |(_, word)| word)
    }

    pub(super) fn of(mark: Option<&Mark>) -> Came {
        match mark {
            None => Came::Unasked,
            Some(Mark::Open(_)) => Came::Open,
            Some(Mark::Right(_) | Mark::Read(_)) => Came::Yes,
            Some(Mark::Wrong(_)) => Came::No,
        }
    }

    fn read(word: &str) -> Came {
        CAME.iter().find(|(_, name)| *name == word).map_or(Came::Unasked, |(came, _)| *came)
    }
}

impl Row {
    /// As a line of the answer.
    pub(super) fn text(&self) -> String {
        let came = [self.target, self.number, self.sign, self.size, self.written].map(Came::word);
        let mut cells = vec![self.line.to_string()];
        let texts = [
            &self.fault,
            &self.again,
            &self.trouble,
            &self.lesson,
            &self.title,
            &self.name,
            &self.typed,
            &self.first,
            &self.words,
        ];
        cells.extend(texts.into_iter().cloned());
        cells.extend(came.map(String::from));
        cells.push(if self.hinted { "yes" } else { "no" }.into());
        cells.extend(self.readings.iter().flat_map(|(name, value)| [name.clone(), value.clone()]));
        let flat: Vec<String> = cells.iter().map(|cell| cell.replace(['\t', '\n', '\r'], " ")).collect();
        flat.join("\t") + "\n"
    }

    /// Reads one.
    pub(super) fn read(line: &str) -> Option<Row> {
        let cells: Vec<&str> = line.split('\t').collect();
        let (head, readings) = cells.split_at_checked(16)?;
        let text = |at: usize| head[at].to_string();
        let came = |at: usize| Came::read(head[at]);
        Some(Row {
            line: head[0].parse().ok()?,
            fault: text(1),
            again: text(2),
            trouble: text(3),
            lesson: text(4),
            title: text(5),
            name: text(6),
            typed: text(7),
            first: text(8),
            words: text(9),
            target: came(10),
            number: came(11),
            sign: came(12),
            size: came(13),
            written: came(14),
            hinted: head[15] == "yes",
            readings: readings.chunks_exact(2).map(|pair| (pair[0].into(), pair[1].into())).collect(),
        })
    }
}
