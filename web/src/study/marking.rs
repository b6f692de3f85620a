//! An answer, checked and marked: a mark for each thing that was asked, none of which makes up for another.

use super::value::value_at;
use crate::document::Document;
use crate::document::lesson::{Aim, Answer, Lesson, Prediction, mark};
use crate::document::place::Place;
use crate::text::number::Units;
use kernel::Reading;

/// What one part of an answer is worth.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// Nothing to mark yet, and what is missing.
    Open(String),
    /// Right.
    Right(String),
    /// Not yet.
    Wrong(String),
    /// Given; somebody has to read it.
    Read(String),
}

impl Mark {
    /// The mark in a sentence.
    pub fn sentence(&self) -> &str {
        let (Mark::Open(text) | Mark::Right(text) | Mark::Wrong(text) | Mark::Read(text)) = self;
        text
    }
}

/// The marks of all that was asked; `None` for what was not.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Marking {
    /// There is something to mark.
    pub answered: bool,
    /// The readings to be reached, all together.
    pub targets: Option<Mark>,
    /// The number.
    pub number: Option<Mark>,
    /// The prediction.
    pub prediction: Option<Mark>,
    /// Of a prediction that has been marked: its sign is right, its size is right.
    pub guess: Option<[bool; 2]>,
    /// The words.
    pub words: Option<Mark>,
}

impl Marking {
    /// The marks there are.
    pub fn all(&self) -> impl Iterator<Item = &Mark> {
        [&self.targets, &self.number, &self.prediction, &self.words].into_iter().flatten()
    }

    /// True if all that can be checked is right, and the rest is there.
    pub fn passed(&self) -> bool {
        self.all().count() > 0 && self.all().all(|mark| matches!(mark, Mark::Right(_) | Mark::Read(_)))
    }

    /// A sentence or more a mark, a line each.
    pub fn lines(&self) -> Vec<String> {
        let lines: Vec<String> = self.all().map(|mark| mark.sentence().to_string()).collect();
        let heading = (!self.answered).then(|| "Not answered yet.".to_string());
        heading.into_iter().chain(lines).collect()
    }
}

/// A prediction off by less than this part of the change has its size right.
const SIZE: f64 = 0.25;

/// A joint or position within this of another is there, mm or degrees: half of what a link carries.
const SAME: f64 = 0.005;

impl Lesson {
    /// The number that has been typed, in the kernel's unit; `None` for none, or for what is no number.
    fn typed(&self, text: &str, units: Units) -> Option<f64> {
        self.asks()?.read(text, units)
    }

    /// The answer, checked: with something to show for it, what is hidden is shown, and what stood in the number's box is kept.
    pub fn check(&self, document: &Document) -> Answer {
        let answer = document.answer.clone();
        let locks = self.predict.is_some() || !self.hidden.is_empty();
        let first = answer.first.clone().or_else(|| (locks && self.answered(document)).then(|| answer.guess.clone()));
        Answer { checked: true, first, ..answer }
    }

    /// True if there is an answer: the number asked for; else the axle moved, or the words.
    fn answered(&self, document: &Document) -> bool {
        let answer = &document.answer;
        if self.asks().is_some() {
            self.typed(&answer.guess, document.units).is_some()
        } else if self.aims.is_empty() {
            !self.words || !answer.words.trim().is_empty()
        } else {
            self.touched(document)
        }
    }

    /// True if a joint is elsewhere than at the start.
    fn touched(&self, document: &Document) -> bool {
        self.sealed() && mark(&document.layout) != self.begin
    }

    /// Marks an answer.
    pub fn marking(&self, document: &Document) -> Marking {
        let targets = (!self.aims.is_empty()).then(|| self.targets(document));
        let predicted = self.predict.map(|prediction| self.predicted(&prediction, targets.as_ref(), document));
        Marking {
            answered: self.answered(document),
            number: self.number.filter(|_| self.predict.is_none()).and_then(|_| self.marked_number(document)),
            guess: predicted.as_ref().and_then(|(_, guess)| *guess),
            prediction: predicted.map(|(mark, _)| mark),
            words: self.words.then(|| words(&document.answer)),
            targets,
        }
    }

    fn targets(&self, document: &Document) -> Mark {
        if !self.touched(document) {
            return Mark::Open("Nothing has been moved yet.".into());
        }
        if self.aims.iter().any(|aim| self.hides(&document.answer, aim.column)) {
            return Mark::Open("The target is judged once what is hidden is shown.".into());
        }
        let missed: Vec<String> = self.aims.iter().filter_map(|aim| aim.missed(document)).collect();
        if !missed.is_empty() {
            return Mark::Wrong(missed.join("\n"));
        }
        let reached = if self.aims.len() == 1 { "Target reached" } else { "Targets reached" };
        // All are judged where they belong; the first place that is not the one shown is named.
        let elsewhere = self.aims.iter().map(|aim| elsewhere(aim.place, document)).find(|words| !words.is_empty());
        Mark::Right(format!("{reached}{}.", elsewhere.unwrap_or_default()))
    }

    fn marked_number(&self, document: &Document) -> Option<Mark> {
        let number = self.number?;
        let text = &document.answer.guess;
        Some(match self.typed(text, document.units) {
            None if text.trim().is_empty() => Mark::Open("The number is missing.".into()),
            None => unread(text),
            // A link carries six decimals.
            Some(value) if (value - number.value).abs() <= number.tolerance + 1e-9 => {
                Mark::Right("The number is right.".into())
            }
            Some(_) => Mark::Wrong("The number is not right yet.".into()),
        })
    }

    /// Marks what was predicted first against the change that was asked for; once that is known, sign and size singly.
    fn predicted(
        &self,
        prediction: &Prediction,
        targets: Option<&Mark>,
        document: &Document,
    ) -> (Mark, Option<[bool; 2]>) {
        let open = |why: String| (Mark::Open(why), None);
        let answer = &document.answer;
        let text = answer.first.as_ref().unwrap_or(&answer.guess);
        let Some(guess) = self.typed(text, document.units) else {
            return if text.trim().is_empty() {
                open("The prediction is missing.".into())
            } else {
                (unread(text), None)
            };
        };
        if answer.first.is_none() {
            return open("The prediction has not been checked.".into());
        }
        match self.change(prediction, targets, document) {
            Ok(change) => prediction.outcome(guess, change, document),
            Err(why) => open(format!("Prediction: marked {why}.")),
        }
    }

    /// The change that the task asks for: up to the target if the reading predicted has one, else up to where the other targets
    /// are reached; without targets, the one that the student's own move has made. The error says when it is known.
    fn change(
        &self,
        prediction: &Prediction,
        targets: Option<&Mark>,
        document: &Document,
    ) -> Result<f64, &'static str> {
        let touched = self.touched(document);
        if let Some(aim) = self.aims.iter().find(|aim| aim.column == prediction.column) {
            return if touched { Ok(aim.value - prediction.before) } else { Err("once you have made the move") };
        }
        match targets {
            Some(Mark::Right(_)) => {}
            Some(_) => return Err("once the target is reached"),
            None if touched || !same(prediction.place, Place::of(document)) => {}
            None => return Err("once you have made the move"),
        }
        let place = if touched { prediction.place } else { Place::of(document) };
        let value = Reading::named(prediction.column).and_then(|reading| value_at(document, place, reading));
        value.map(|value| value - prediction.before).ok_or("where the reading exists")
    }
}

impl Prediction {
    /// Sign and size of a guess against the change, both in the kernel's unit.
    fn outcome(&self, guess: f64, change: f64, document: &Document) -> (Mark, Option<[bool; 2]>) {
        let Some(reading) = Reading::named(self.column) else { return (Mark::Open(String::new()), None) };
        let (decimals, factor, _) = document.units.shown(reading);
        let digit = 10.0_f64.powi(-(decimals as i32)) / factor;
        let none = |value: f64| value.abs() < digit / 2.0;
        let sign = guess * change > 0.0 || (none(guess) && none(change));
        let size = (guess.abs() - change.abs()).abs() <= f64::max(SIZE * change.abs(), digit / 2.0);
        let word = |right: bool| if right { "right" } else { "wrong" };
        let [changed, predicted] = [change, guess].map(|value| document.units.with_unit(Some(value), reading));
        let sentence = format!(
            "Prediction: {} sign, {} size. {} changes by {changed}; you predicted {predicted}.",
            word(sign),
            word(size),
            reading.full_name()
        );
        (if sign && size { Mark::Right(sentence) } else { Mark::Wrong(sentence) }, Some([sign, size]))
    }
}

impl Aim {
    /// What is missing, in a sentence; `None` if it is reached.
    fn missed(&self, document: &Document) -> Option<String> {
        let (reading, units) = (Reading::named(self.column)?, document.units);
        let value = value_at(document, self.place, reading);
        // A link carries six decimals.
        if value.is_some_and(|value| (value - self.value).abs() <= self.tolerance + 1e-9) {
            return None;
        }
        let (name, elsewhere) = (reading.full_name(), elsewhere(self.place, document));
        let wanted = format!(
            "{} ± {}",
            units.reading(Some(self.value), reading),
            units.with_unit(Some(self.tolerance), reading)
        );
        Some(match value {
            Some(_) => format!("{name} is {}{elsewhere}; wanted: {wanted}.", units.with_unit(value, reading)),
            None => format!("{name} can’t be read{elsewhere}; wanted: {wanted}."),
        })
    }

    /// True if the reading is reached.
    pub fn reached(&self, document: &Document) -> bool {
        self.missed(document).is_none()
    }
}

fn words(answer: &Answer) -> Mark {
    if answer.words.trim().is_empty() {
        Mark::Open("The written answer is missing.".into())
    } else {
        Mark::Read("Written answer given; a teacher has to read it.".into())
    }
}

fn unread(text: &str) -> Mark {
    Mark::Open(format!("“{}” can’t be read as the number asked for; nothing is marked.", text.trim()))
}

fn same(a: Place, b: Place) -> bool {
    [a.travel - b.travel, a.rack - b.rack, a.roll - b.roll].iter().all(|by| by.abs() < SAME)
}

/// A place in words, if it is not the one shown.
fn elsewhere(place: Place, document: &Document) -> String {
    if same(place, Place::of(document)) { String::new() } else { format!(" {}", place.words(document.units)) }
}
