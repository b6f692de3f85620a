//! Spread: numbers are known to ± so much; how far may each reading be off?
//!
//! With s_i the slope of a reading by number i, ±e_i its error and σ_i its deviation, all errors independent of each other:
//! ```text
//! linear        σ² = Σ (s_i·σ_i)²        worst = Σ |s_i|·e_i        share of number i = (s_i·σ_i)²/σ²
//! Monte Carlo   the readings of so many axles, each with errors drawn anew, solved and not linearised
//! ```

use super::{Errors, Outcome, Parameter, Quantity, Varied};
use crate::axle::NoAxle;
use crate::layout::{Entry, Layout, LeftOrRight, Read, Sides};
use crate::math::Random;

/// Where the readings are asked for, and what is off.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// What is off.
    pub errors: Errors,
    /// Travels, mm.
    pub travels: Vec<f64>,
    /// Rack, mm.
    pub rack: f64,
}

/// So many travels can be asked for.
const MOST_TRAVELS: usize = 201;

impl Asked {
    /// Reads a file of errors for this axle. The error is a sentence.
    pub fn from_json(text: &str, layout: &Layout) -> Result<Asked, String> {
        super::file(text, "errors", |json| {
            let known = ["kind", "points", "lengths", "distribution", "travel", "rack"];
            let file = Entry::new("", json, &known)?;
            let travels = if file.find("travel").is_some() { super::numbers(&file, "travel")? } else { vec![0.0] };
            if travels.is_empty() || travels.len() > MOST_TRAVELS {
                return Err(format!("“travel” must be one number or a list of at most {MOST_TRAVELS}"));
            }
            Ok(Asked { errors: Errors::read(&file, layout)?, travels, rack: file.number_or("rack", 0.0)? })
                as Read<Asked>
        })
    }
}

/// How far the readings of one wheel may be off.
pub struct Spread {
    outcomes: Vec<Outcome>,
    errors: Errors,
    varied: Varied,
    /// What the numbers are said to be.
    said: Vec<f64>,
    values: Vec<Option<f64>>,
    /// A row a number.
    slopes: Vec<Vec<Option<f64>>>,
    random: Random,
    sums: Vec<Sum>,
    /// Of how many axles that were drawn there is none, or it can't be where it was asked for.
    pub failed: usize,
}

/// What has been drawn of one outcome: how many, the sums of their differences from the value and of the squares, and, where they are kept, each.
#[derive(Clone, Default)]
struct Sum {
    count: usize,
    first: f64,
    second: f64,
    samples: Option<Vec<f64>>,
}

/// How far one reading may be off at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Off {
    /// The reading of the axle as it is said to be.
    pub value: f64,
    /// Standard deviation by the slopes.
    pub sigma_linear: f64,
    /// The most that it can be off by the slopes.
    pub worst_linear: f64,
    /// What has been drawn, if at least two axles have.
    pub drawn: Option<Drawn>,
}

/// What came of the axles that were drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drawn {
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub sigma: f64,
    /// 5th, 50th and 95th percentile, where each is kept.
    pub percentiles: Option<[f64; 3]>,
}

impl Spread {
    /// Of a wheel at travels, mm, and a rack position, mm: every reading of a state there. The samples of those that `keep` says are kept one by one,
    /// for percentiles. Nothing is drawn yet.
    pub fn new(
        layout: &Layout,
        side: LeftOrRight,
        asked: &Asked,
        seed: u64,
        keep: impl Fn(Quantity) -> bool,
    ) -> Result<Spread, NoAxle> {
        let quantities: Vec<Quantity> = Quantity::all().filter(|quantity| !quantity.is_swept()).collect();
        let at = |travel: f64| {
            quantities.iter().map(move |quantity| Outcome { quantity: *quantity, side, travel, rack: asked.rack })
        };
        let outcomes: Vec<Outcome> = asked.travels.iter().flat_map(|travel| at(*travel)).collect();
        let numbers = asked.errors.numbers.iter().map(|(number, _)| (*number, Sides::One(side))).collect();
        let mut varied = Varied::new(layout, numbers, &outcomes);
        let said = varied.numbers();
        let values = varied.at(&said)?;
        let slopes = varied.slopes(&said, &values);
        let sum = |outcome: &Outcome| Sum { samples: keep(outcome.quantity).then(Vec::new), ..Sum::default() };
        let sums = outcomes.iter().map(sum).collect();
        let random = Random::seeded(seed);
        Ok(Spread { outcomes, errors: asked.errors.clone(), varied, said, values, slopes, random, sums, failed: 0 })
    }

    /// What is read, and where.
    pub fn outcomes(&self) -> &[Outcome] {
        &self.outcomes
    }

    /// Draws one axle more.
    pub fn draw(&mut self) {
        let errors = self.errors.draw(&mut self.random);
        let numbers: Vec<f64> = self.said.iter().zip(errors).map(|(said, error)| said + error).collect();
        let Ok(drawn) = self.varied.at(&numbers) else {
            self.failed += 1;
            return;
        };
        for ((sum, value), drawn) in self.sums.iter_mut().zip(&self.values).zip(drawn) {
            if let (Some(value), Some(drawn)) = (value, drawn) {
                sum.add(*value, drawn);
            }
        }
    }

    /// How far an outcome may be off; `None` where the axle does not have it.
    pub fn off(&self, outcome: usize) -> Option<Off> {
        let value = self.values[outcome]?;
        let by: Vec<[f64; 2]> = self.parts(outcome)?;
        Some(Off {
            value,
            sigma_linear: by.iter().map(|[deviation, _]| deviation * deviation).sum::<f64>().sqrt(),
            worst_linear: by.iter().map(|[_, most]| most).sum(),
            drawn: self.sums[outcome].drawn(value),
        })
    }

    /// Which part of the linear spread's square each number has, the greatest first; empty where nothing moves the outcome.
    pub fn shares(&self, outcome: usize) -> Vec<(Parameter, f64)> {
        let squares: Vec<f64> =
            self.parts(outcome).unwrap_or_default().iter().map(|[deviation, _]| deviation * deviation).collect();
        let all: f64 = squares.iter().sum();
        let shares = self.errors.numbers.iter().zip(squares).filter(|_| all > 0.0);
        let mut shares: Vec<(Parameter, f64)> = shares.map(|((number, _), square)| (*number, square / all)).collect();
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        shares
    }

    /// By each number: the deviation and the most that it makes.
    fn parts(&self, outcome: usize) -> Option<Vec<[f64; 2]>> {
        let part = |((_, most), slopes): (&(Parameter, f64), &Vec<Option<f64>>)| {
            let slope = slopes[outcome]?.abs();
            Some([slope * self.errors.distribution.deviation(*most), slope * most])
        };
        self.errors.numbers.iter().zip(&self.slopes).map(part).collect()
    }

    /// The samples of an outcome that were kept.
    pub fn samples(&self, outcome: usize) -> &[f64] {
        self.sums[outcome].samples.as_deref().unwrap_or_default()
    }

    /// The table: `travel,reading,value,sigma_linear,worst_linear,mean,sigma,p05,p50,p95`, full precision, empty where there is none.
    pub fn table(&self) -> String {
        let mut table = String::from("travel,reading,value,sigma_linear,worst_linear,mean,sigma,p05,p50,p95\n");
        for (i, outcome) in self.outcomes.iter().enumerate() {
            let off = self.off(i);
            let drawn = off.and_then(|off| off.drawn);
            let percentiles = drawn.and_then(|drawn| drawn.percentiles);
            let linear = off.map(|off| [off.value, off.sigma_linear, off.worst_linear]);
            let drawn = drawn.map(|drawn| [drawn.mean, drawn.sigma]);
            let cells = [cells(linear), cells(drawn), cells(percentiles)].join(",");
            table += &format!("{},{},{cells}\n", outcome.travel, outcome.quantity.column());
        }
        table
    }
}

fn cells<const N: usize>(numbers: Option<[f64; N]>) -> String {
    let cell = |i: usize| numbers.map_or(String::new(), |numbers| (numbers[i] + 0.0).to_string());
    (0..N).map(cell).collect::<Vec<_>>().join(",")
}

impl Sum {
    fn add(&mut self, value: f64, drawn: f64) {
        let off = drawn - value;
        self.count += 1;
        self.first += off;
        self.second += off * off;
        if let Some(samples) = &mut self.samples {
            samples.push(drawn);
        }
    }

    fn drawn(&self, value: f64) -> Option<Drawn> {
        if self.count < 2 {
            return None;
        }
        let count = self.count as f64;
        let square = (self.second - self.first * self.first / count) / (count - 1.0);
        let percentiles = self.samples.as_ref().map(|samples| {
            let mut sorted = samples.clone();
            sorted.sort_by(f64::total_cmp);
            [0.05, 0.5, 0.95].map(|part| percentile(&sorted, part))
        });
        Some(Drawn { mean: value + self.first / count, sigma: square.max(0.0).sqrt(), percentiles })
    }
}

/// The value below which a part of a sorted sample lies, straight between its neighbours (R. Hyndman, Y. Fan, *Sample Quantiles in Statistical
/// Packages*, The American Statistician 50, 1996, definition 7).
fn percentile(sorted: &[f64], part: f64) -> f64 {
    let place = part * (sorted.len() - 1) as f64;
    let below = place as usize;
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + (sorted[above] - sorted[below]) * (place - below as f64)
}
