//! Goals: which coordinates have to move, inside their boxes, so that readings come out. A piece is one start of the search; whenever the answers have
//! changed, all of them are told anew as JSON in a line: the last line counts.

mod check;

use super::Job;
use crate::document::goal::{Aim, Goal, LengthKept, Wanted};
use crate::document::{Document, Measured};
use crate::text::sentence::capital;
use check::check;
use kernel::vary::goals::{Answer, Goals, NoGoal, Search};
use kernel::vary::{Design, Parameter, Quantity};
use kernel::{Amount, Built, Layout, LeftOrRight, Member};
use serde::{Deserialize, Serialize};
use serde_json::json;

/// What its tasks begin with.
pub const NAME: &str = "goals";

/// From so many points it is searched, drawn with this seed: the same goal has the same answers.
pub const STARTS: usize = 16;
const SEED: u64 = 1;

/// So many answers are told.
const TOLD: usize = 5;

/// What is asked of an axle; sound enough to be searched for.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// The axle.
    pub layout: Layout,
    /// What is wanted of it.
    pub goal: Goal,
}

/// An answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Found {
    /// The free coordinates, mm.
    pub numbers: Vec<f64>,
    /// What comes out, aim by aim and travel by travel.
    pub values: Vec<Vec<f64>>,
    /// Which aims are met.
    pub met: Vec<bool>,
    /// Which lengths are kept.
    pub kept: Vec<bool>,
    /// The free coordinates that are at an end of their box.
    pub at_the_end: Vec<usize>,
    /// The two aims that pull against each other most, where not all are met.
    pub against: Option<[usize; 2]>,
}

impl Found {
    /// True if everything that was asked for is met.
    pub fn all_met(&self) -> bool {
        self.met.iter().chain(&self.kept).all(|met| *met)
    }
}

impl Question {
    /// What a document asks; or, in a sentence, why that can't be searched for.
    pub fn of(document: &Document) -> Result<Question, String> {
        let goal = document.papers.goal.as_deref().cloned().unwrap_or_default();
        check(document, &goal)?;
        Ok(Question { layout: document.layout.clone(), goal })
    }

    /// The task.
    pub fn task(&self) -> String {
        let Question { layout, goal } = self;
        let free = goal.free.iter().map(|freed| {
            let parameter = Parameter::Design(Design::Coordinate(freed.point, freed.axis));
            json!({"parameter": parameter.name(layout), "range": freed.range})
        });
        let aims = goal.aims.iter().map(|Aim { reading, travel, rack, wanted }| match wanted {
            Wanted::Value([value, off]) => {
                json!({"reading": reading, "travel": travel, "rack": rack, "value": value, "tolerance": off})
            }
            Wanted::Range(range) => json!({"reading": reading, "travel": travel, "rack": rack, "range": range}),
        });
        let mut file = json!({"starts": STARTS, "seed": SEED});
        file["free"] = free.collect();
        file["aims"] = aims.collect();
        if !goal.lengths.is_empty() {
            let kept = |kept: &LengthKept| json!({"member": kept.member, "range": kept.range});
            file["lengths"] = goal.lengths.iter().map(kept).collect();
        }
        format!("{NAME}\n{file}\n{}", layout.to_json())
    }

    /// The places, rounded as links carry them, of the joints that an answer moves.
    pub fn places(&self, found: &Found) -> Vec<Measured> {
        let mut rows: Vec<Measured> = Vec::new();
        for (freed, number) in self.goal.free.iter().zip(&found.numbers) {
            let at = rows.iter().position(|row| row.point == freed.point).unwrap_or_else(|| {
                rows.push(Measured::nothing(freed.point));
                rows.len() - 1
            });
            rows[at] = rows[at].with(freed.axis, Some((number * 100.0).round() / 100.0));
        }
        rows
    }

    /// The axle that an answer makes.
    pub fn layout(&self, found: &Found) -> Layout {
        let mut layout = self.layout.clone();
        for row in self.places(found) {
            if let Some(point) = layout.point_mut(row.point) {
                *point = row.over(*point);
            }
        }
        layout
    }

    /// How long the kept members then are, mm, in their order.
    pub fn lengths(&self, found: &Found) -> Vec<Option<f64>> {
        let layout = self.layout(found);
        self.goal.lengths.iter().map(|kept| length(&layout, &kept.member)).collect()
    }
}

/// How long a rod or leg is as it is built on the left, mm.
pub fn length(layout: &Layout, path: &str) -> Option<f64> {
    let all = Built::of(layout, LeftOrRight::Left).lengths(layout);
    all.into_iter().find(|(member, _)| member.path() == path).map(|(_, length)| length)
}

/// The rods and legs that an axle has.
pub fn members(layout: &Layout) -> Vec<Member> {
    let all = Built::of(layout, LeftOrRight::Left).lengths(layout);
    all.into_iter().map(|(member, _)| member).filter(|member| Member::RODS.contains(member)).collect()
}

/// What an answer says last; an error is a sentence.
pub fn read(answer: &str) -> Result<Vec<Found>, String> {
    let last = answer.lines().last().unwrap_or_default();
    match last.strip_prefix('!') {
        Some(sentence) => Err(sentence.into()),
        None => serde_json::from_str(last).map_err(|_| "Nothing came of it; try again.".into()),
    }
}

/// The search, as far as it has come.
struct Searching {
    layout: Layout,
    goals: Goals,
    /// None before it is begun, and where it can't be.
    search: Option<Search>,
    done: usize,
    told: String,
}

/// Reads a task.
pub fn start(text: &str) -> Result<Box<dyn Job>, String> {
    let (goals, layout) = text.split_once('\n').ok_or("There is nothing to search for.")?;
    let layout = Layout::from_json(layout)?;
    let goals = Goals::from_json(goals, &layout)?;
    Ok(Box::new(Searching { layout, goals, search: None, done: 0, told: String::new() }))
}

impl Job for Searching {
    fn pieces(&self) -> usize {
        self.goals.starts
    }

    fn step(&mut self) -> String {
        if self.done == 0 {
            match Search::new(&self.layout, self.goals.clone()) {
                Ok(search) => self.search = Some(search),
                Err(why) => self.told = format!("!{}\n", sentence(&why)),
            }
        }
        self.done += 1;
        let Some(search) = &mut self.search else { return std::mem::take(&mut self.told) };
        search.step();
        let told = told(search.answers());
        if told == self.told {
            return String::new();
        }
        self.told.clone_from(&told);
        told
    }
}

/// The answers in a line: all that meet everything, or else the nearest alone.
fn told(answers: &[Answer]) -> String {
    let met = answers.iter().filter(|answer| answer.all_met()).count();
    let found = |answer: &Answer| Found {
        numbers: answer.numbers.clone(),
        values: answer.values.clone(),
        met: answer.met.clone(),
        kept: answer.kept.clone(),
        at_the_end: answer.at_the_end.clone(),
        against: answer.against,
    };
    let shown: Vec<Found> = match met {
        0 => answers.iter().take(1).map(found).collect(),
        _ => answers.iter().filter(|answer| answer.all_met()).take(TOLD).map(found).collect(),
    };
    // String keys, numbers and text only, which always serialise.
    serde_json::to_string(&shown).unwrap_or_default() + "\n"
}

/// Why nothing can be searched.
fn sentence(why: &NoGoal) -> String {
    match why {
        NoGoal::Axle(why) => {
            format!("The present axle can’t be where a reading is aimed at: {}", capital(&why.to_string()))
        }
        NoGoal::NoReading(column, [travel, rack]) => {
            let name = Quantity::named(column).map_or(column.to_string(), |quantity| quantity.reading().full_name());
            let [travel, rack] = [Amount(*travel), Amount(*rack)];
            format!(
                "The present axle has no “{name}” at travel {travel} mm and rack {rack} mm, so it can’t be aimed at."
            )
        }
        NoGoal::NoCondition(_) => why.to_string(),
    }
}
