//! Fit: which joints, within their errors, have the readings that were measured? One piece; the answer is JSON in one line.

use super::Job;
use kernel::vary::fit::Measured;
use kernel::vary::{DISTRIBUTIONS, Distribution};
use kernel::{Layout, LeftOrRight, PointId};
use serde::{Deserialize, Serialize};
use serde_json::json;

/// What its tasks begin with.
pub const NAME: &str = "fit";

/// What is asked of a wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The axle as it was measured.
    pub layout: Layout,
    /// Which wheel, as a left one.
    pub side: LeftOrRight,
    /// How its points may be off within their ±.
    pub distribution: Distribution,
    /// Points, each with the ± of its coordinates, mm; at least one.
    pub points: Vec<(PointId, f64)>,
    /// Readings: column; travel and rack, mm; value and error, one standard deviation.
    pub values: Vec<(&'static str, [f64; 2], [f64; 2])>,
}

/// What comes of it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// Why there is none, in a sentence; empty if there is one.
    pub why_not: String,
    /// Every number that was fitted, camber and toe at rest last.
    pub numbers: Vec<Number>,
    /// What is left of each reading over its error: reading less measured.
    pub left: Vec<f64>,
}

/// A number as it was measured and as it fits, mm or degrees.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Number {
    /// By the file's own path.
    pub name: String,
    /// As it was measured.
    pub measured: f64,
    /// Its standard deviation then; none for camber and toe.
    pub deviation: Option<f64>,
    /// As it fits.
    pub fitted: f64,
    /// Its standard deviation now.
    pub left: Option<f64>,
    /// The readings say nothing about it.
    pub untouched: bool,
}

impl Question {
    /// The task.
    pub fn task(&self) -> String {
        let name = |id: &PointId| id.path(&self.layout).to_string();
        let points: serde_json::Map<_, _> = self.points.iter().map(|(id, most)| (name(id), json!(most))).collect();
        let distribution = DISTRIBUTIONS.iter().find(|(known, _)| *known == self.distribution);
        let distribution = distribution.map_or("", |(_, name)| name);
        let value = |(reading, [travel, rack], [value, error]): &(&str, [f64; 2], [f64; 2])| json!({"reading": reading, "side": self.side.name(), "travel": travel, "rack": rack, "value": value, "error": error});
        let values: Vec<_> = self.values.iter().map(value).collect();
        let errors = json!({"kind": "design", "distribution": distribution, "points": points});
        format!("{NAME}\n{}\n{}", json!({"values": values, "errors": errors}), self.layout.to_json())
    }
}

/// Reads the answer.
pub fn read(answer: &str) -> Answer {
    let nothing = || Answer { why_not: "Nothing came of it; try again.".into(), ..Answer::default() };
    serde_json::from_str(answer).unwrap_or_else(|_| nothing())
}

/// Reads a task.
pub fn start(task: &str) -> Result<Box<dyn Job>, String> {
    let (measured, layout) = task.split_once('\n').ok_or("There is nothing to fit to.")?;
    let layout = Layout::from_json(layout)?;
    Ok(Box::new(Fitting { measured: Measured::from_json(measured, &layout)?, layout }))
}

struct Fitting {
    measured: Measured,
    layout: Layout,
}

impl Job for Fitting {
    fn pieces(&self) -> usize {
        1
    }

    fn step(&mut self) -> String {
        let answer = match self.measured.fit(&self.layout) {
            Err(why) => Answer { why_not: why.to_string(), ..Answer::default() },
            Ok(fitted) => {
                let number = |number: &kernel::vary::fit::Corrected| Number {
                    name: number.parameter.name(&self.layout),
                    measured: number.measured,
                    deviation: number.deviation,
                    fitted: number.fitted,
                    left: number.left,
                    untouched: number.is_untouched(),
                };
                let numbers = fitted.numbers.iter().map(number).collect();
                Answer { why_not: String::new(), numbers, left: fitted.left }
            }
        };
        // Text and finite numbers only, which always serialise.
        serde_json::to_string(&answer).unwrap_or_default()
    }
}
