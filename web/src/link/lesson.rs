//! Reads the story, the lesson and the answer that a link carries.

use super::reader::Reader;
use crate::demos;
use crate::document::Quantity;
use crate::lesson::{Aim, Answer, Free, Lesson, Prediction};
use crate::story::{MOST_SHOTS, Shot};
use crate::study::MOST_TRAVEL;
use kernel::{LIMIT, PointId, clip};

/// What the parameters of the shots begin with.
const SHOTS: [&str; MOST_SHOTS] =
    ["s0.", "s1.", "s2.", "s3.", "s4.", "s5.", "s6.", "s7.", "s8.", "s9.", "s10.", "s11."];

/// Longest task, hint and words, characters.
const LONGEST: usize = 2_000;

/// More of anything in a lesson than this is no lesson.
const MOST: usize = 20;

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
            shots.push(Shot { layout, travel, rack, pinned, points_at, caption });
        }
        self.prefix = "";
        shots
    }

    /// The lesson and its answer; a link without a task has none.
    pub(super) fn lesson(&mut self) -> (Option<Lesson>, Answer) {
        if !self.has("task") {
            return (None, Answer::default());
        }
        let task = self.text("task", LONGEST).unwrap_or_default();
        let hint = self.text("hint", LONGEST).unwrap_or_default();
        let hidden = self.columns("hide");
        let lesson = Lesson {
            free: self.free(),
            aims: self.aims(),
            number: self.take("number").and_then(|text| self.parse_within("number", &text, 1e7)),
            predict: self.prediction(),
            words: self.flag("words"),
            begin: self.begin(),
            task,
            hint,
            hidden,
        };
        let mut optional = |key: &str, longest: usize| if self.has(key) { self.text(key, longest) } else { None };
        let (by, words) = (optional("by", 120).unwrap_or_default(), optional("said", LONGEST).unwrap_or_default());
        let guess =
            self.take("guess").and_then(|text| self.parse_within::<1>("guess", &text, 1e7)).map(|[guess]| guess);
        let shown = self.flag("shown");
        (Some(lesson), Answer { by, guess, words, shown })
    }

    /// 1 is yes, 0 or nothing no.
    fn flag(&mut self, key: &str) -> bool {
        let text = self.take(key).unwrap_or_default();
        if !["", "0", "1"].contains(&text.as_str()) {
            self.wrong(key, &text, "0 or 1");
        }
        text == "1"
    }

    fn prediction(&mut self) -> Option<Prediction> {
        let text = self.take("predict")?;
        let prediction = text.split_once('~').and_then(|(name, before)| {
            let before = before.parse().ok().filter(|before: &f64| before.abs() <= 1e7)?;
            Some(Prediction { column: Quantity::named(name)?.column(), before })
        });
        if prediction.is_none() {
            self.wrong("predict", &text, "a reading and its value");
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
            match Quantity::named(name) {
                Some(quantity) if !columns.contains(&quantity.column()) => columns.push(quantity.column()),
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

    fn aims(&mut self) -> Vec<Aim> {
        let text = self.take("aims").unwrap_or_default();
        let parts: Vec<&str> = text.split('~').filter(|part| !part.is_empty()).take(2 * MOST).collect();
        let mut all = Vec::new();
        for pair in parts.chunks(2) {
            let aim = pair.get(1).and_then(|numbers| numbers.split_once('_')).and_then(|(value, tolerance)| {
                let (value, tolerance): (f64, f64) = (value.parse().ok()?, tolerance.parse().ok()?);
                let sound = value.abs() <= 1e7 && (0.0..=1e7).contains(&tolerance);
                Some(Aim { column: Quantity::named(pair[0])?.column(), value, tolerance }).filter(|_| sound)
            });
            match aim {
                Some(aim) => all.push(aim),
                None => self.faults.push(format!(
                    "The link’s “aims” has “{}”, not a reading, a value and a tolerance.",
                    clip(&pair.join("~"))
                )),
            }
        }
        all
    }
}
