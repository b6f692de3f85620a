//! What single thing explains a sheet: a piece a cause, one before them for what has been set, one behind them for what would decide. The answer
//! comes with the last piece, as JSON in one line.

use super::Job;
use kernel::repair::{Cause, Causes, Found, Further, Gauge, NoFit, Search, tried};
use kernel::{Change, Layout, LeftOrRight, Sides};
use serde::{Deserialize, Serialize};

/// What its tasks begin with.
pub const NAME: &str = "explain";

/// So many causes are told; the others are counted where they are tied with the first.
pub const TOLD: usize = 8;

/// The task for what was found on a car that should be as this layout says.
pub fn task(found: &Found, layout: &Layout) -> String {
    format!("{NAME}\n{}\n{}", found.to_json(layout), layout.to_json())
}

/// The answer.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Answer {
    /// Why there is none, in a sentence; empty if there is one.
    pub why_not: String,
    /// χ² with nothing wrong.
    pub with_nothing: f64,
    /// Causes tied with the first, itself among them.
    pub tied: usize,
    /// The first causes.
    pub causes: Vec<Told>,
    /// What would decide between those that are tied.
    pub further: Option<Measure>,
}

/// A cause, by the names of files.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Told {
    /// The change.
    pub change: String,
    /// `both`, `left`, `right`.
    pub side: String,
    /// Its amount, mm or degrees.
    pub amount: f64,
    /// What it leaves over.
    pub chi2: f64,
    /// Everything that it and what was set since put into the car: change, side, amount in all.
    pub built: Vec<(String, String, f64)>,
}

/// What is to be measured further.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Measure {
    /// The column of a reading; or `length.…` of a member; or `ride`.
    pub what: String,
    /// `left` or `right`.
    pub side: String,
    /// A reading: how much further up than it was found the wheel is then moved, mm.
    pub by: f64,
    /// Left less right.
    pub against: bool,
    /// Usual error.
    pub error: f64,
    /// What it reads on each of the first causes.
    pub reads: Vec<f64>,
    /// Pairs of causes that it tells apart.
    pub pairs: usize,
}

/// Reads the answer.
pub fn read(answer: &str) -> Option<Answer> {
    serde_json::from_str(answer).ok()
}

impl Told {
    /// The cause on this axle.
    pub fn cause(&self, layout: &Layout) -> Option<(Change, Sides)> {
        Some((Change::named(&self.change, layout)?, sides(&self.side)?))
    }

    /// The axle as it should be, with all this put in.
    pub fn put_into(&self, layout: &Layout) -> Layout {
        let mut built = layout.clone();
        for (change, side, by) in &self.built {
            if let (Some(change), Some(of)) = (Change::named(change, layout), sides(side)) {
                built.changes.set(of, change, *by);
            }
        }
        built
    }
}

fn sides(key: &str) -> Option<Sides> {
    Sides::ALL.into_iter().find(|of| of.key() == key)
}

/// The search, as far as it has come.
struct Explaining {
    found: Found,
    layout: Layout,
    tried: Vec<(Change, Sides)>,
    done: usize,
    search: Option<Search>,
    causes: Vec<Cause>,
    failed: Option<NoFit>,
}

/// Reads a task.
pub fn start(text: &str) -> Result<Box<dyn Job>, String> {
    let (found, layout) = text.split_once('\n').ok_or("There is nothing to explain.")?;
    let layout = Layout::from_json(layout)?;
    let found = Found::from_json(found, &layout)?;
    let mut tried = tried(&found, &layout);
    if found.values.iter().any(|value| value.less.is_some()) {
        // Of a difference, what is too much on the right is too little on the left.
        tried.retain(|(_, of)| *of != Sides::One(LeftOrRight::Right));
    }
    Ok(Box::new(Explaining { found, layout, tried, done: 0, search: None, causes: Vec::new(), failed: None }))
}

impl Job for Explaining {
    fn pieces(&self) -> usize {
        self.tried.len() + 2
    }

    fn step(&mut self) -> String {
        let piece = self.done;
        self.done += 1;
        if piece == 0 {
            match Search::new(&self.found, &self.layout) {
                Ok(search) => self.search = Some(search),
                Err(why) => self.failed = Some(why),
            }
        } else if let (Some(search), Some(tried)) = (&self.search, self.tried.get(piece - 1)) {
            match search.cause(*tried) {
                Ok(cause) => self.causes.push(cause),
                Err(why) => self.failed = Some(why),
            }
        } else if piece > self.tried.len() {
            // String keys, numbers and text only, which always serialise.
            return serde_json::to_string(
                &self.answer().unwrap_or_else(|why| Answer { why_not: why, ..Answer::default() }),
            )
            .unwrap_or_default();
        }
        String::new()
    }
}

impl Explaining {
    fn answer(&mut self) -> Result<Answer, String> {
        if let Some(why) = &self.failed {
            return Err(why.to_string());
        }
        let search = self.search.as_ref().ok_or("There is nothing to explain.")?;
        let causes = Causes::ranked(std::mem::take(&mut self.causes));
        let first: Vec<Cause> = causes.0.iter().take(1).chain(causes.tied_with(0)).copied().collect();
        let further = Further::between(&first, search).map_err(|why| why.to_string())?;
        let told = causes.0.iter().take(TOLD).map(|cause| self.told(search, cause));
        Ok(Answer {
            why_not: String::new(),
            with_nothing: search.with_nothing(),
            tied: first.len(),
            causes: told.collect::<Result<_, NoFit>>().map_err(|why| why.to_string())?,
            further: further.map(|further| self.measure(further)),
        })
    }

    fn told(&self, search: &Search, cause: &Cause) -> Result<Told, NoFit> {
        let built = search.built(cause)?.changes;
        let before = &self.layout.changes;
        let new = built.iter().filter(|(of, change, by)| before.get(*of, *change) != *by);
        Ok(Told {
            change: cause.change.name(&self.layout),
            side: cause.of.key().into(),
            amount: cause.amount,
            chi2: cause.chi2,
            built: new.map(|(of, change, by)| (change.name(&self.layout), of.key().into(), fine(change, by))).collect(),
        })
    }

    fn measure(&self, further: Further) -> Measure {
        let stands = |side| self.found.values.iter().map(|value| value.outcome).find(|at| at.side == side);
        let (what, side, by) = match further.gauge {
            Gauge::Reading(at) => {
                let from = stands(at.side).map_or(self.layout.changes.ride(), |found| found.travel);
                (at.quantity.column().into(), at.side, at.travel - from)
            }
            Gauge::Length(side, member) => (Change::Length(member).name(&self.layout), side, 0.0),
            Gauge::RideHeight(side) => (Change::Ride.name(&self.layout), side, 0.0),
        };
        Measure {
            what,
            side: side.name().into(),
            by,
            against: further.against,
            error: further.error,
            reads: further.reads.into_iter().take(TOLD).collect(),
            pairs: further.pairs,
        }
    }
}

/// To the digits that a link carries, so that what is put into the car is what the link says of it: thousandths of a mm, ten-thousandths of a degree.
fn fine(change: Change, by: f64) -> f64 {
    let digits = if change.unit() == "°" { 1e4 } else { 1e3 };
    (by * digits).round() / digits
}
