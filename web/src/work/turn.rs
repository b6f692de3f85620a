//! What to turn: the adjusters of the task's layout, alone and by twos, a candidate a piece; the answer comes with the last.

use super::Job;
use kernel::vary::{Aim, Answer, Quantity, Turning};
use kernel::{Adjuster, Change, Layout, PointId, Sides};

/// What its tasks begin with.
pub const NAME: &str = "turn";

/// What somebody wants of a wheel where the car stands.
#[derive(Clone)]
pub struct Wanted {
    /// The car, with the adjusters that are offered.
    pub layout: Layout,
    /// The wheels that are worked on.
    pub sides: Sides,
    /// What they are to read.
    pub aims: Vec<Aim>,
}

impl PartialEq for Wanted {
    fn eq(&self, other: &Wanted) -> bool {
        let aims = |wanted: &Wanted| -> Vec<(&str, f64)> {
            wanted.aims.iter().map(|aim| (aim.quantity.column(), aim.wanted)).collect()
        };
        self.sides == other.sides && aims(self) == aims(other) && self.layout == other.layout
    }
}

/// No workshop adjusts further, mm.
const FURTHEST: f64 = 20.0;

/// What can be turned: a layout's own adjusters; without any, what a workshop would make adjustable: every member's length, a strut's top mount.
pub fn adjusters(layout: &Layout) -> Vec<Adjuster> {
    let own = &layout.changes.adjusters;
    if !own.is_empty() {
        return own.clone();
    }
    let usual = |change: &Change| matches!(change, Change::Length(_) | Change::Joint(PointId::StrutTop, 0 | 1));
    let within = |change| Adjuster { range: [-FURTHEST, FURTHEST], ..Adjuster::of(change) };
    Change::all(layout).into_iter().filter(usual).map(within).collect()
}

impl Wanted {
    /// What is asked of a car; nothing without aims.
    pub fn of(layout: &Layout, sides: Sides, aims: Vec<Aim>) -> Option<Wanted> {
        let mut layout = layout.clone();
        layout.changes.adjusters = adjusters(&layout);
        (!aims.is_empty()).then_some(Wanted { layout, sides, aims })
    }

    /// The task of the search.
    pub fn task(&self) -> String {
        let aims = self.aims.iter().map(|aim| format!(" {}={}", aim.quantity.column(), aim.wanted));
        format!("{NAME}\n{}{}\n{}", self.sides.key(), aims.collect::<String>(), self.layout.to_json())
    }

    /// What the search's answer means: by one adjuster, by two.
    pub fn answers(&self, answer: &str) -> [Option<Answer>; 2] {
        let adjusters = self.layout.changes.adjusters.clone();
        let turning = Turning::new(&self.layout, self.sides, self.aims.clone(), adjusters);
        moves(answer).map(|moves| if moves.is_empty() { None } else { turning.answer(&moves) })
    }
}

/// What an answer says to turn and how far: by the best one, by the best two; nothing where there is no such answer.
fn moves(answer: &str) -> [Vec<(usize, f64)>; 2] {
    let one = |word: &str| {
        let (at, by) = word.split_once(' ')?;
        Some((at.parse().ok()?, by.parse().ok()?))
    };
    let mut lines = answer.lines().map(|line| line.split('\t').filter_map(one).collect());
    [(); 2].map(|()| lines.next().unwrap_or_default())
}

/// Reads a task.
pub fn start(task: &str) -> Result<Box<dyn Job>, String> {
    let (asked, layout) = task.split_once('\n').unwrap_or_default();
    let mut words = asked.split(' ');
    let key = words.next().unwrap_or_default();
    let sides = Sides::ALL.into_iter().find(|sides| sides.key() == key).unwrap_or(Sides::Both);
    let aim = |word: &str| {
        let (column, wanted) = word.split_once('=')?;
        Some(Aim { quantity: Quantity::named(column)?, wanted: wanted.parse().ok()? })
    };
    let layout = Layout::from_json(layout)?;
    let adjusters = layout.changes.adjusters.clone();
    let turning = Turning::new(&layout, sides, words.filter_map(aim).collect(), adjusters);
    Ok(Box::new(Turn { left: turning.candidates(), turning }))
}

struct Turn {
    turning: Turning,
    left: usize,
}

impl Job for Turn {
    fn pieces(&self) -> usize {
        self.turning.candidates()
    }

    fn step(&mut self) -> String {
        self.turning.step();
        self.left = self.left.saturating_sub(1);
        if self.left > 0 {
            return String::new();
        }
        let line = |answer: Option<Answer>| {
            let moves = answer.into_iter().flat_map(|answer| answer.moves);
            moves.map(|step| format!("{} {}", step.adjuster, step.by)).collect::<Vec<_>>().join("\t") + "\n"
        };
        self.turning.answers().map(line).concat()
    }
}
