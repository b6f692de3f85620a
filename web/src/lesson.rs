//! A lesson: a task on a prepared axle, what may be moved, what is hidden, what is to be reached or answered; and a student's answer.
//! Nothing here is secret: the link carries it all.

use crate::document::{Document, Quantity};
use crate::study::Solved;
use kernel::{Layout, PointId};

/// Prepared by a teacher.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lesson {
    /// What is to be done.
    pub task: String,
    /// A hint, shown when asked for.
    pub hint: String,
    /// Readings hidden until the answer is checked.
    pub hidden: Vec<&'static str>,
    /// What may be moved, and how far from where it begins; if empty, everything that is not locked.
    pub free: Vec<Free>,
    /// Readings to be reached.
    pub aims: Vec<Aim>,
    /// The number asked for, and how far off it may be.
    pub number: Option<[f64; 2]>,
    /// What is to be predicted, as a number, before anything is shown.
    pub predict: Option<Prediction>,
    /// Words are asked for: they are not checked here.
    pub words: bool,
    /// Marks the layout it begins with; 0 while it is being prepared.
    pub begin: u32,
}

/// A coordinate that may be moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Free {
    /// The point.
    pub point: PointId,
    /// 0, 1, 2 for x, y, z.
    pub axis: usize,
    /// Least and greatest value, mm.
    pub range: [f64; 2],
}

/// A reading to be reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aim {
    /// Its column.
    pub column: &'static str,
    /// The value, in the reading's own unit.
    pub value: f64,
    /// How far off it may be.
    pub tolerance: f64,
}

/// A reading whose change is to be predicted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prediction {
    /// Its column.
    pub column: &'static str,
    /// Its value where the student begins, in the reading's own unit.
    pub before: f64,
}

/// A prediction off by less than this part of the change has its size right.
const SIZE: f64 = 0.25;

impl Prediction {
    /// Of a reading's change from what it is on a solved axle.
    pub fn of(column: &'static str, solved: &Solved) -> Option<Prediction> {
        let value = solved.value(Quantity::named(column)?).filter(|value| value.is_finite())?;
        // To the digits that a link carries.
        Some(Prediction { column, before: (value * 1e6).round() / 1e6 })
    }

    /// What has come of a guess, typed in the unit that is shown, in a sentence.
    fn outcome(&self, guess: f64, document: &Document, solved: &Solved) -> Option<String> {
        let quantity = Quantity::named(self.column)?;
        let change = solved.value(quantity)? - self.before;
        let shown = |value| document.units.quantity(Some(value), quantity);
        let guess = guess / document.units.shown(quantity).1;
        let sign = if guess * change > 0.0 { "the sign is right" } else { "the sign is not right" };
        let size = if (guess.abs() - change.abs()).abs() <= SIZE * change.abs() {
            "so is the size"
        } else {
            "the size is off"
        };
        let link = if (guess * change > 0.0) == size.starts_with("so") { ", " } else { ", but " };
        Some(format!(
            "{} has changed by {}; predicted was {}: {sign}{link}{size}.",
            quantity.full_name(),
            shown(change),
            shown(guess)
        ))
    }
}

/// What a student has answered.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answer {
    /// Whose it is.
    pub by: String,
    /// The number, or the prediction.
    pub guess: Option<f64>,
    /// The words.
    pub words: String,
    /// The answer has been checked, and what was hidden is shown.
    pub shown: bool,
}

/// What an answer is worth.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// Nothing has been done yet.
    Unanswered,
    /// Everything that can be checked is right.
    Right,
    /// Not yet; a sentence a part.
    Wrong(Vec<String>),
    /// Only words are asked for, and some are there.
    Words,
}

/// A mark of a layout: 32 bits of FNV-1a over its joints as a link has them.
pub fn mark(layout: &Layout) -> u32 {
    let text: String = layout.points().map(|(id, p)| format!("{}{:.2}{:.2}{:.2}", id.code(), p.x, p.y, p.z)).collect();
    let hash = text.bytes().fold(0x811C_9DC5_u32, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193));
    hash.max(1)
}

impl Lesson {
    /// True for a student: the lesson came by a link.
    pub fn sealed(&self) -> bool {
        self.begin != 0
    }

    /// The range a coordinate may take; `None` where it must not be moved.
    pub fn range(&self, point: PointId, axis: usize) -> Option<[f64; 2]> {
        if self.free.is_empty() {
            return Some([-kernel::LIMIT, kernel::LIMIT]);
        }
        self.free.iter().find(|free| free.point == point && free.axis == axis).map(|free| free.range)
    }

    /// What is hidden now.
    pub fn hides(&self, answer: &Answer, column: &str) -> bool {
        self.sealed() && !answer.shown && self.hidden.contains(&column)
    }

    /// What has come of the prediction, once it has been checked.
    pub fn outcome(&self, document: &Document, solved: &Solved) -> Option<String> {
        let guess = document.answer.guess.filter(|_| document.answer.shown)?;
        self.predict?.outcome(guess, document, solved)
    }

    /// Checks an answer on the solved axle.
    pub fn verdict(&self, document: &Document, solved: &Solved) -> Verdict {
        let answer = &document.answer;
        let untouched = mark(&document.layout) == self.begin || self.begin == 0;
        let needs_number = self.number.is_some() || self.predict.is_some();
        if (!self.aims.is_empty() && untouched) || (needs_number && answer.guess.is_none()) {
            return Verdict::Unanswered;
        }
        if self.words && answer.words.trim().is_empty() {
            return Verdict::Unanswered;
        }
        let mut wrong: Vec<String> = self.aims.iter().filter_map(|aim| aim.missed(document, solved)).collect();
        if let (Some([value, tolerance]), Some(guess)) = (self.number, answer.guess)
            && (guess - value).abs() > tolerance
        {
            wrong.push("The number is not right yet.".into());
        }
        match (wrong.is_empty(), self.aims.is_empty() && !needs_number) {
            (false, _) => Verdict::Wrong(wrong),
            (true, true) if self.words => Verdict::Words,
            (true, true) => Verdict::Unanswered,
            (true, false) => Verdict::Right,
        }
    }
}

impl Aim {
    /// What is missing, in a sentence; `None` if it is reached.
    fn missed(&self, document: &Document, solved: &Solved) -> Option<String> {
        let quantity = Quantity::named(self.column)?;
        let value = solved.value(quantity).filter(|value| value.is_finite());
        if value.is_some_and(|value| (value - self.value).abs() <= self.tolerance) {
            return None;
        }
        let units = document.units;
        Some(format!(
            "{} is {}, not {} ± {}.",
            quantity.full_name(),
            units.quantity(value, quantity),
            units.quantity(Some(self.value), quantity),
            units.quantity(Some(self.tolerance), quantity)
        ))
    }
}
