//! Spread: how far readings may be off where the car stands. The first piece tells it by slopes; of each further one a batch of axles is drawn, and
//! every so many of them what has come so far is told anew: the last that is told counts.

use super::Job;
use crate::study::Known;
use kernel::vary::spread::{Asked, Drawn, Spread};
use kernel::vary::{DISTRIBUTIONS, KINDS, Parameter, Quantity};
use kernel::{Layout, LeftOrRight, PointId};

/// What its tasks begin with.
pub const NAME: &str = "spread";

/// Axles that are drawn in a piece: some milliseconds.
const BATCH: usize = 20;

/// After so many pieces what has come is told.
const TOLD: usize = 25;

/// Bars of a histogram.
const BARS: usize = 25;

/// A deviation less than this, mm or degrees, is rounding: poses are solved to 1e-11 mm and slopes taken over 1e-3 mm, so they have a noise of 1e-8, of
/// which some dozens of coordinates and a few mm make a hundredfold at most.
const NOTHING: f64 = 1e-6;

/// So many axles are drawn when they are asked for.
pub const COUNT: usize = 10_000;

/// What is asked of a wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// It, with its points' ±.
    pub known: Known,
    /// The readings that are asked for.
    pub columns: Vec<&'static str>,
}

/// What comes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// Axles drawn, and how many of them there are not or can't stand there.
    pub drawn: [usize; 2],
    /// Each reading that the axle has.
    pub lines: Vec<Line>,
}

/// How far a reading may be off, in its own unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Its column.
    pub column: String,
    /// Its value, its deviation by slopes, and the most that it can be off by them.
    pub linear: [f64; 3],
    /// The part that each coordinate has in the square of its deviation, the greatest first.
    pub shares: Vec<(Parameter, f64)>,
    /// What has been drawn.
    pub sample: Option<Sample>,
}

/// Readings of the axles that were drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Sample {
    /// Mean, standard deviation, 5th, 50th and 95th percentile, least, greatest.
    pub numbers: [f64; 7],
    /// How many lie in each of as many equal parts between least and greatest; all 0 where nothing moves it but rounding.
    pub bars: Vec<usize>,
}

impl Question {
    /// The task, with so many axles to be drawn.
    pub fn task(&self, count: usize) -> String {
        let known = &self.known;
        let name = |id: PointId| id.path(&known.layout);
        let points: Vec<String> = known.points.iter().map(|(id, most)| format!("\"{}\": {most}", name(*id))).collect();
        let kind = KINDS.iter().find(|(kind, _)| *kind == known.kind).map_or("", |(_, name)| name);
        let distribution = DISTRIBUTIONS.iter().find(|(of, _)| *of == known.distribution).map_or("", |(_, name)| name);
        format!(
            "{NAME}\n{count} {} {}\n{{\"kind\": \"{kind}\", \"distribution\": \"{distribution}\", \"travel\": {}, \"points\": {{{}}}}}\n{}",
            known.side.name(),
            self.columns.join(","),
            known.layout.changes.ride(),
            points.join(", "),
            known.layout.to_json()
        )
    }

    /// What an answer says last; an error is a sentence.
    pub fn read(&self, answer: &str) -> Result<Told, String> {
        if let Some(sentence) = answer.strip_prefix('!') {
            return Err(sentence.trim().into());
        }
        let last = answer.rfind('#').map(|at| &answer[at + 1..]);
        let told = last.and_then(|block| {
            let (counts, lines) = block.split_once('\n')?;
            let (drawn, failed) = counts.split_once(' ')?;
            let lines = lines.lines().filter_map(|line| self.line(line)).collect();
            Some(Told { drawn: [drawn.parse().ok()?, failed.parse().ok()?], lines })
        });
        told.ok_or_else(|| "Nothing came of it; try again.".into())
    }

    fn line(&self, line: &str) -> Option<Line> {
        let mut cells = line.split('\t');
        let column = cells.next()?.into();
        let linear = numbers(cells.next()?)?;
        let share = |word: &str| {
            let (name, share) = word.split_once('=')?;
            Some((Parameter::named(name, &self.known.layout)?, share.parse().ok()?))
        };
        let shares = cells.next()?.split_whitespace().filter_map(share).collect();
        let sample = cells.next().and_then(|text| {
            let bars = cells.next()?.split(' ').filter_map(|bar| bar.parse().ok()).collect();
            Some(Sample { numbers: numbers(text)?, bars })
        });
        Some(Line { column, linear, shares, sample })
    }
}

fn numbers<const N: usize>(text: &str) -> Option<[f64; N]> {
    let all: Option<Vec<f64>> = text.split(' ').map(|number| number.parse().ok()).collect();
    all?.try_into().ok()
}

/// Reads a task.
pub fn start(task: &str) -> Result<Box<dyn Job>, String> {
    let mut parts = task.splitn(3, '\n');
    let mut next = || parts.next().unwrap_or_default();
    let (head, errors, layout) = (next(), next(), Layout::from_json(next())?);
    let mut words = head.split(' ');
    let count: usize = words.next().and_then(|word| word.parse().ok()).unwrap_or(0);
    let side = if words.next() == Some(LeftOrRight::Right.name()) { LeftOrRight::Right } else { LeftOrRight::Left };
    let columns = words.next().unwrap_or_default().split(',').map(String::from).collect();
    let asked = Asked::from_json(errors, &layout)?;
    let batches = count.div_ceil(BATCH);
    Ok(Box::new(Drawing { layout, side, asked, columns, batches, done: 0, begun: false, spread: None }))
}

struct Drawing {
    layout: Layout,
    side: LeftOrRight,
    asked: Asked,
    columns: Vec<String>,
    /// Batches of axles to be drawn.
    batches: usize,
    /// And drawn.
    done: usize,
    begun: bool,
    /// None before it is begun, and where the axle can't stand there.
    spread: Option<Spread>,
}

/// Samples are drawn with this seed: the same question has the same answer.
const SEED: u64 = 1;

impl Job for Drawing {
    fn pieces(&self) -> usize {
        1 + self.batches
    }

    fn step(&mut self) -> String {
        if !self.begun {
            self.begun = true;
            return self.begin();
        }
        let Some(spread) = &mut self.spread else { return String::new() };
        (0..BATCH).for_each(|_| spread.draw());
        self.done += 1;
        if self.done.is_multiple_of(TOLD) || self.done == self.batches { self.told() } else { String::new() }
    }
}

impl Drawing {
    fn begin(&mut self) -> String {
        let keep = |quantity: Quantity| self.columns.iter().any(|column| column == quantity.column());
        match Spread::new(&self.layout, self.side, &self.asked, SEED, keep) {
            Ok(spread) => {
                self.spread = Some(spread);
                self.told()
            }
            Err(why) => format!("!{why}"),
        }
    }

    /// What has come so far.
    fn told(&self) -> String {
        let Some(spread) = &self.spread else { return String::new() };
        let mut told = format!("#{} {}\n", self.done * BATCH, spread.failed);
        for column in &self.columns {
            let at = spread.outcomes().iter().position(|outcome| outcome.quantity.column() == column);
            let Some((at, off)) = at.and_then(|at| Some((at, spread.off(at)?))) else { continue };
            let moves = off.sigma_linear > NOTHING;
            let shares = spread.shares(at).into_iter().filter(|_| moves);
            let shares: Vec<String> =
                shares.map(|(number, share)| format!("{}={share}", number.name(&self.layout))).collect();
            let linear = words(&[off.value, off.sigma_linear, off.worst_linear]);
            let drawn = off.drawn.and_then(|drawn| sample(drawn, spread.samples(at), moves)).unwrap_or_default();
            told += &format!("{column}\t{linear}\t{}{drawn}\n", shares.join(" "));
        }
        told
    }
}

fn words(numbers: &[f64]) -> String {
    numbers.iter().map(f64::to_string).collect::<Vec<_>>().join(" ")
}

/// The cells of a sample; it has bars only where something moves it.
fn sample(drawn: Drawn, samples: &[f64], moves: bool) -> Option<String> {
    let [low, middle, high] = drawn.percentiles?;
    let least = samples.iter().copied().fold(f64::INFINITY, f64::min);
    let most = samples.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let mut bars = [0_usize; BARS];
    for value in samples.iter().filter(|_| moves) {
        // All alike stand in the first bar.
        let part = if most > least { (value - least) / (most - least) } else { 0.0 };
        bars[((part * BARS as f64) as usize).min(BARS - 1)] += 1;
    }
    let numbers = words(&[drawn.mean, drawn.sigma, low, middle, high, least, most]);
    let bars: Vec<String> = bars.iter().map(usize::to_string).collect();
    Some(format!("\t{numbers}\t{}", bars.join(" ")))
}
