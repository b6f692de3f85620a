//! Goals: which coordinates have to move, inside their boxes, so that readings come out. A piece is one step from a start of the search, or nothing once
//! that start is at its end; whenever the answers have changed, all of them are told anew as JSON in a line: the last line counts.

mod check;

use super::{Job, Slice};
use crate::document::goal::{Aim, Condition, Goal, Kept, LengthKept, Wanted};
use crate::document::{Document, Measured};
use crate::study::condition::{FAR, name};
use crate::study::space::pair;
use crate::text::sentence::capital;
use check::check;
use kernel::vary::goals::{self, Answer, Goals, Search};
use kernel::vary::{NoSearch, Quantity};
use kernel::{Amount, Built, Layout, LeftOrRight, Member};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

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
    /// Which lengths are kept, and then which conditions.
    pub kept: Vec<bool>,
    /// What the conditions come to, each place by place, in the order of [`Goal::kept`].
    pub conditions: Vec<Vec<f64>>,
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
        let free = goal.free.iter();
        let free = free.map(|freed| json!({"parameter": freed.parameter().name(layout), "range": freed.range}));
        let mut file = json!({"starts": STARTS, "seed": SEED, "side": goal.side().name()});
        file["free"] = free.collect();
        file["aims"] = goal.aims.iter().map(aim).collect();
        if !goal.lengths.is_empty() {
            let kept = |kept: &LengthKept| json!({"member": kept.member, "range": kept.range});
            file["lengths"] = goal.lengths.iter().map(kept).collect();
        }
        let swings = goal.kept().filter_map(|one| match one.kept {
            Kept::Swing(joint) => Some(placed(one, json!({"joint": joint.path(layout), "range": [0.0, one.limit]}))),
            _ => None,
        });
        let gaps = goal.kept().filter_map(|one| match &one.kept {
            Kept::Swing(_) => None,
            Kept::Gap(between) => Some(placed(one, json!({"between": between, "range": [one.limit, FAR]}))),
            Kept::LeastGap => Some(placed(one, json!({"range": [one.limit, FAR]}))),
        });
        let lists: [(&str, Vec<Value>); 2] = [("swings", swings.collect()), ("gaps", gaps.collect())];
        for (name, list) in lists.into_iter().filter(|(_, list)| !list.is_empty()) {
            file[name] = list.into();
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
        self.goal.lengths.iter().map(|kept| length(&layout, self.goal.side(), &kept.member)).collect()
    }
}

/// An aim as the kernel's files have it.
fn aim(aim: &Aim) -> Value {
    let Aim { reading, travel, rack, wanted } = aim;
    match wanted {
        Wanted::Value([value, off]) => {
            json!({"reading": reading, "travel": travel, "rack": rack, "value": value, "tolerance": off})
        }
        Wanted::Range(range) => json!({"reading": reading, "travel": travel, "rack": rack, "range": range}),
        Wanted::Line(line) => {
            let [travel, rack] = [0, 1].map(|i| aim.places().iter().map(|place| place[i]).collect::<Vec<_>>());
            let value: Vec<f64> = line.places().into_iter().map(|at| line.at(at)).collect();
            json!({"reading": reading, "travel": travel, "rack": rack, "value": value, "tolerance": line.off})
        }
    }
}

/// An entry with the places of a condition.
fn placed(one: &Condition, mut entry: Value) -> Value {
    entry["travel"] = json!(one.travel);
    entry["rack"] = json!(one.rack);
    entry
}

/// How long a rod or leg is as it is built on a side, mm.
pub fn length(layout: &Layout, side: LeftOrRight, path: &str) -> Option<f64> {
    let all = Built::of(layout, side).lengths(layout);
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

/// How many starts are at their end, and how many there are.
pub fn starts(slice: &Slice) -> [usize; 2] {
    [slice.done, slice.of].map(|pieces| pieces / Search::STEPS)
}

/// The search, as far as it has come.
struct Searching {
    layout: Layout,
    goals: Goals,
    /// None before it is begun, and where it can't be.
    search: Option<Search>,
    done: usize,
    /// The present start is at its end.
    ended: bool,
    told: String,
}

/// Reads a task.
pub fn start(text: &str) -> Result<Box<dyn Job>, String> {
    let (goals, layout) = text.split_once('\n').ok_or("There is nothing to search for.")?;
    let layout = Layout::from_json(layout)?;
    let goals = Goals::from_json(goals, &layout)?;
    Ok(Box::new(Searching { layout, goals, search: None, done: 0, ended: false, told: String::new() }))
}

impl Job for Searching {
    fn pieces(&self) -> usize {
        self.goals.starts * Search::STEPS
    }

    fn step(&mut self) -> String {
        if self.done == 0 {
            match Search::new(&self.layout, self.goals.clone()) {
                Ok(search) => self.search = Some(search),
                Err(why) => self.told = format!("!{}\n", self.sentence(&why)),
            }
        }
        self.ended &= !self.done.is_multiple_of(Search::STEPS);
        self.done += 1;
        let Some(search) = &mut self.search else { return std::mem::take(&mut self.told) };
        if self.ended {
            return String::new();
        }
        self.ended = search.advance();
        if !self.ended {
            return String::new();
        }
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
        conditions: answer.conditions.clone(),
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

impl Searching {
    /// Why nothing can be searched.
    fn sentence(&self, why: &NoSearch) -> String {
        match why {
            NoSearch::Axle(why) => {
                format!("The present axle can’t be where a reading is aimed at: {}", capital(&why.to_string()))
            }
            NoSearch::NoReading(column, [travel, rack]) => {
                let name =
                    Quantity::named(column).map_or(column.to_string(), |quantity| quantity.reading().full_name());
                let [travel, rack] = [Amount(*travel), Amount(*rack)];
                format!(
                    "The present axle has no “{name}” at travel {travel} mm and rack {rack} mm, so it can’t be aimed at."
                )
            }
            NoSearch::NoCondition(at) => {
                let kept = self.goals.conditions.get(*at).map(|one| match one.kept {
                    goals::Kept::Swing(joint) => name(&Kept::Swing(joint), &self.layout),
                    goals::Kept::Gap(None) => name(&Kept::LeastGap, &self.layout),
                    goals::Kept::Gap(Some(between)) => format!("gap {}", pair(between, &self.layout)),
                });
                format!(
                    "The present axle can’t be everywhere the {} is to be kept, or has no such thing: change its travels, or remove its row.",
                    kept.unwrap_or_default()
                )
            }
        }
    }
}
