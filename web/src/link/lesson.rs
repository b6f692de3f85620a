//! Reads the story, the lesson and the answer that a link carries, and writes the latter two.

use super::reader::Reader;
use super::{numbers, text};
use crate::content::demos;
use crate::document::Document;
use crate::document::lesson::{Aim, Answer, Free, Lesson, Number, Prediction, mark};
use crate::document::place::{MOST_TRAVEL, Place};
use crate::document::story::{MOST_SHOTS, Shot};
use crate::text::number::Units;
use crate::text::typed::CODES;
use kernel::{LIMIT, PointId, Reading, Unit, clip};

/// What the parameters of the shots begin with.
const SHOTS: [&str; MOST_SHOTS] =
    ["s0.", "s1.", "s2.", "s3.", "s4.", "s5.", "s6.", "s7.", "s8.", "s9.", "s10.", "s11."];

/// Longest task, hint and words, characters.
const LONGEST: usize = 2_000;

/// Longest number with its unit, characters.
const LONGEST_NUMBER: usize = 60;

/// More of anything in a lesson than this is no lesson.
const MOST: usize = 20;

/// A reading's numbers are all within this, in whatever unit.
const LARGEST: f64 = 1e7;

/// `N` numbers joined by `_` and, since aims and predictions have one, the place behind them; else the one where the link's axle is.
fn placed<const N: usize>(text: &str, start: Place) -> Option<([f64; N], Place)> {
    let numbers: Vec<f64> = text.split('_').map(|part| part.parse().ok()).collect::<Option<_>>()?;
    let sound = numbers.iter().all(|number: &f64| number.abs() <= LARGEST);
    let (values, place) = numbers.split_at_checked(N).filter(|_| sound)?;
    let place = match place {
        [] => start,
        [travel, rack, roll] => Place { travel: *travel, rack: *rack, roll: *roll },
        _ => return None,
    };
    Some((values.try_into().ok()?, place))
}

/// A lesson and its answer. Whoever writes the link of a lesson in preparation seals it.
pub(super) fn write(lesson: &Lesson, document: &Document) -> Vec<(&'static str, String)> {
    let answer = &document.answer;
    let short = |column: &str| Reading::named(column).map_or("", Reading::short);
    let axis = |axis: usize| ["x", "y", "z"][axis.min(2)];
    let free = |free: &Free| format!("{}-{}_{}", free.point.code(), axis(free.axis), numbers(&free.range));
    let placed = |values: &[f64], place: Place| numbers(&[values, &[place.travel, place.rack, place.roll]].concat());
    let aim = |aim: &Aim| format!("{}~{}", short(aim.column), placed(&[aim.value, aim.tolerance], aim.place));
    let number = |number: Number| match CODES.iter().find(|(unit, _)| *unit == number.unit && *unit != Unit::One) {
        Some((_, code)) => format!("{}~{code}", numbers(&[number.value, number.tolerance])),
        None => numbers(&[number.value, number.tolerance]),
    };
    let yes = |yes: bool| yes.then(|| "1".to_string());
    let join = |parts: Vec<String>| parts.join("~");
    let begin = if lesson.sealed() { lesson.begin } else { mark(&document.layout) };
    let mut pairs = vec![
        ("task", text(&lesson.task)),
        ("hint", text(&lesson.hint)),
        ("hide", lesson.hidden.iter().map(|column| short(column)).collect::<Vec<_>>().join(".")),
        ("free", join(lesson.free.iter().map(free).collect())),
        ("aims", join(lesson.aims.iter().map(aim).collect())),
        ("begin", begin.to_string()),
    ];
    let optional = [
        ("number", lesson.number.map(number)),
        ("predict", lesson.predict.map(|p| format!("{}~{}", short(p.column), placed(&[p.before], p.place)))),
        ("words", yes(lesson.words)),
        ("by", (!answer.by.is_empty()).then(|| text(&answer.by))),
        ("guess", (!answer.guess.is_empty()).then(|| text(&answer.guess))),
        ("said", (!answer.words.is_empty()).then(|| text(&answer.words))),
        ("checked", yes(answer.checked)),
        ("shown", yes(answer.first.is_some())),
        ("first", answer.first.as_deref().map(text)),
        ("hinted", yes(answer.hinted)),
    ];
    pairs.extend(optional.into_iter().filter_map(|(key, value)| Some((key, value?))));
    pairs
}

impl Reader {
    /// The shots of the story, as many as there are in a row.
    pub(super) fn story(&mut self) -> Vec<Shot> {
        let mut shots = Vec::new();
        for prefix in SHOTS {
            self.prefix = prefix;
            if !self.has("said") {
                break;
            }
            let demo = self.take("demo").and_then(|text| demos::layout(text.parse().ok()?));
            let layout = demo.unwrap_or_else(|| self.layout());
            let pinned = self.columns("pins");
            let code = self.take("at").filter(|code| !code.is_empty());
            let points_at = code.as_deref().and_then(PointId::coded);
            if let (Some(code), None) = (&code, points_at) {
                self.wrong("at", code, "the code of a point");
            }
            let caption = self.text("said", LONGEST).unwrap_or_default();
            let (travel, rack) = (self.position("travel", MOST_TRAVEL), self.position("rack", 1_000.0));
            // Older shots are of one wheel.
            let wheels = self.take("axle").and_then(|text| self.wheels(&text));
            let (whole, roll) = wheels.unwrap_or_default();
            shots.push(Shot { layout, travel, rack, whole, roll, pinned, points_at, caption });
        }
        self.prefix = "";
        shots
    }

    /// The lesson and its answer; a link without a task has none. `start` is where the link's axle is.
    pub(super) fn lesson(&mut self, start: Place, units: Units) -> (Option<Lesson>, Answer) {
        if !self.has("task") {
            return (None, Answer::default());
        }
        let task = self.text("task", LONGEST).unwrap_or_default();
        let hint = self.text("hint", LONGEST).unwrap_or_default();
        let hidden = self.columns("hide");
        let lesson = Lesson {
            free: self.free(),
            aims: self.aims(start),
            number: self.number(),
            predict: self.prediction(start),
            words: self.flag("words"),
            begin: self.begin(),
            task,
            hint,
            hidden,
        };
        let answer = self.answer(&lesson, units);
        (Some(lesson), answer)
    }

    fn answer(&mut self, lesson: &Lesson, units: Units) -> Answer {
        let mut optional = |key: &str, longest: usize| if self.has(key) { self.text(key, longest) } else { None };
        let (by, words) = (optional("by", 120).unwrap_or_default(), optional("said", LONGEST).unwrap_or_default());
        // Of before units were written, a number is in what was shown.
        let with_unit = |text: String| lesson.asks().map_or(text.clone(), |kind| kind.with_unit(&text, units));
        let guess = optional("guess", LONGEST_NUMBER).map(with_unit).unwrap_or_default();
        let first = optional("first", LONGEST_NUMBER).map(with_unit);
        let shown = self.flag("shown");
        let first = shown.then(|| first.unwrap_or_else(|| guess.clone()));
        Answer { checked: self.flag("checked") || shown, hinted: self.flag("hinted"), by, guess, words, first }
    }

    /// The number asked for and its tolerance; behind them what it is a number of.
    fn number(&mut self) -> Option<Number> {
        let text = self.take("number")?;
        let (numbers, code) = text.split_once('~').unwrap_or((&text, "one"));
        let Some((unit, _)) = CODES.iter().find(|(_, name)| *name == code) else {
            self.wrong("number", &text, "a number, its tolerance and a unit");
            return None;
        };
        let [value, tolerance] = self.parse_within("number", numbers, LARGEST)?;
        Some(Number { value, tolerance, unit: *unit })
    }

    /// 1 is yes, 0 or nothing no.
    fn flag(&mut self, key: &str) -> bool {
        let text = self.take(key).unwrap_or_default();
        if !["", "0", "1"].contains(&text.as_str()) {
            self.wrong(key, &text, "0 or 1");
        }
        text == "1"
    }

    fn prediction(&mut self, start: Place) -> Option<Prediction> {
        let text = self.take("predict")?;
        let prediction = text.split_once('~').and_then(|(name, numbers)| {
            let ([before], place) = placed(numbers, start)?;
            Some(Prediction { column: Reading::named(name)?.column, before, place })
        });
        if prediction.is_none() {
            self.wrong("predict", &text, "a reading, its value and where it is read");
        }
        prediction
    }

    /// The mark of the layout that the lesson begins with; without one every layout counts as changed.
    fn begin(&mut self) -> u32 {
        let Some(text) = self.take("begin") else { return 1 };
        text.parse().unwrap_or_else(|_| {
            self.wrong("begin", &text, "a mark");
            1
        })
    }

    fn columns(&mut self, key: &str) -> Vec<&'static str> {
        let text = self.take(key).unwrap_or_default();
        let mut columns = Vec::new();
        for name in text.split('.').filter(|name| !name.is_empty()).take(MOST) {
            match Reading::named(name) {
                Some(reading) if !columns.contains(&reading.column) => columns.push(reading.column),
                Some(_) => {}
                None => self.faults.push(format!("The link’s “{key}” names “{}”, which is not a reading.", clip(name))),
            }
        }
        columns
    }

    fn free(&mut self) -> Vec<Free> {
        let text = self.take("free").unwrap_or_default();
        let mut all = Vec::new();
        for part in text.split('~').filter(|part| !part.is_empty()).take(MOST) {
            let free = part.split_once('_').and_then(|(place, range)| {
                let (code, axis) = place.split_once('-')?;
                let (least, most) = range.split_once('_')?;
                let axis = ["x", "y", "z"].iter().position(|name| *name == axis)?;
                let range = [least.parse().ok()?, most.parse().ok()?];
                let sound = range[0] <= range[1] && range.iter().all(|mm: &f64| mm.abs() <= LIMIT);
                Some(Free { point: PointId::coded(code)?, axis, range }).filter(|_| sound)
            });
            match free {
                Some(free) => all.push(free),
                None => self
                    .faults
                    .push(format!("The link’s “free” has “{}”, which is not a coordinate and range.", clip(part))),
            }
        }
        all
    }

    fn aims(&mut self, start: Place) -> Vec<Aim> {
        let text = self.take("aims").unwrap_or_default();
        let parts: Vec<&str> = text.split('~').filter(|part| !part.is_empty()).take(2 * MOST).collect();
        let mut all = Vec::new();
        for pair in parts.chunks(2) {
            let aim = pair.get(1).and_then(|numbers| {
                let ([value, tolerance], place) = placed(numbers, start)?;
                Some(Aim { column: Reading::named(pair[0])?.column, value, tolerance, place })
            });
            match aim.filter(|aim| aim.tolerance >= 0.0) {
                Some(aim) => all.push(aim),
                None => self.faults.push(format!(
                    "The link’s “aims” has “{}”, not a reading, a value, a tolerance and where it is judged.",
                    clip(&pair.join("~"))
                )),
            }
        }
        all
    }
}
