//! The slopes of the influence table: every reading by every parameter, on one wheel where the car stands. One piece.

use super::Job;
use kernel::vary::{Parameter, Sensitivity};
use kernel::{Layout, LeftOrRight};

/// What its tasks begin with.
pub const NAME: &str = "influence";

/// Each parameter with the slope of every quantity, in the order of [`kernel::vary::Quantity::all`].
pub type Slopes = Vec<(Parameter, Vec<Option<f64>>)>;

/// The task for a wheel of a layout, where its car stands.
pub fn task(layout: &Layout, side: LeftOrRight) -> String {
    format!("{NAME}\n{}\n{}", side.name(), layout.to_json())
}

/// The slopes that an answer holds; `None` where the axle can't stand there.
pub fn slopes(layout: &Layout, answer: &str) -> Option<Slopes> {
    // Name, unit, travel and rack stand before the slopes.
    let row = |line: &str| line.split(',').skip(4).map(|cell| cell.parse().ok()).collect();
    let rows: Slopes = Parameter::all(layout).into_iter().zip(answer.lines().skip(1).map(row)).collect();
    (!rows.is_empty()).then_some(rows)
}

struct Influence {
    layout: Layout,
    side: LeftOrRight,
}

/// Reads a task.
pub fn start(task: &str) -> Result<Box<dyn Job>, String> {
    let (side, layout) = task.split_once('\n').unwrap_or_default();
    let side = if side == LeftOrRight::Right.name() { LeftOrRight::Right } else { LeftOrRight::Left };
    Ok(Box::new(Influence { layout: Layout::from_json(layout)?, side }))
}

impl Job for Influence {
    fn pieces(&self) -> usize {
        1
    }

    fn step(&mut self) -> String {
        let stands = Sensitivity::at(&self.layout, self.side, self.layout.changes.ride(), 0.0);
        stands.map_or(String::new(), |slopes| slopes.table(&self.layout))
    }
}
