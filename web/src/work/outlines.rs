//! The outlines of the tyre's envelope over the usual grid: the positions are the first piece, each view is one more.

use super::Job;
use crate::study::space::Outlines;
use kernel::space::{Grid, Pieces, Seen, Tyre, outlines};
use kernel::{Axle, Guess, Layout, LeftOrRight, State, Vec3};

/// What its tasks begin with.
pub const NAME: &str = "outlines";

/// The views, in the order of the answer.
const VIEWS: [Seen; 3] = [Seen::Front, Seen::Side, Seen::Plan];

/// The task for a wheel of a layout.
pub fn task(layout: &Layout, side: LeftOrRight) -> String {
    format!("{NAME}\n{}\n{}", side.name(), layout.to_json())
}

/// The outlines of an answer: a line each, the view's number and its points.
pub fn read(answer: &str) -> Outlines {
    let mut read = Outlines::default();
    for line in answer.lines() {
        let mut cells = line.split('\t');
        let view = cells.next().and_then(|view| view.parse::<usize>().ok());
        let point = |cell: &str| {
            let mut numbers = cell.split(' ').map_while(|number| number.parse().ok());
            Some(Vec3::new(numbers.next()?, numbers.next()?, numbers.next()?))
        };
        if let Some(view) = view.and_then(|view| read.get_mut(view)) {
            view.push(cells.filter_map(point).collect());
        }
    }
    read
}

/// Reads a task.
pub fn start(task: &str) -> Result<Box<dyn Job>, String> {
    let (side, layout) = task.split_once('\n').unwrap_or_default();
    let side = if side == LeftOrRight::Right.name() { LeftOrRight::Right } else { LeftOrRight::Left };
    let layout = Layout::from_json(layout)?;
    let axle = Axle::new(&layout).map_err(|why| why.to_string())?;
    Ok(Box::new(Traced { pieces: Pieces::of(&axle, side), grid: Grid::usual(&layout), tyres: Vec::new(), done: 0 }))
}

struct Traced {
    pieces: Pieces,
    grid: Grid,
    tyres: Vec<Tyre>,
    done: usize,
}

impl Job for Traced {
    fn pieces(&self) -> usize {
        1 + VIEWS.len()
    }

    fn step(&mut self) -> String {
        let view = self.done.checked_sub(1);
        self.done += 1;
        match view {
            None => {
                self.solve();
                String::new()
            }
            Some(view) => outlines(&self.tyres, VIEWS[view], 0.0).iter().map(|line| written(view, line)).collect(),
        }
    }
}

impl Traced {
    /// The tyre at all positions that can be reached.
    fn solve(&mut self) {
        let linkage = self.pieces.linkage();
        let mut guess = Guess::at_rest(linkage);
        for demand in self.grid.demands() {
            if let Ok(state) = State::solve(linkage, demand, guess) {
                guess = Guess::from(&state);
                self.tyres.push(self.pieces.tyre(&state.position));
            }
        }
    }
}

/// To the hundredth of a millimetre.
fn written(view: usize, line: &[Vec3]) -> String {
    let points = line.iter().map(|p| format!("\t{:.2} {:.2} {:.2}", p.x, p.y, p.z));
    format!("{view}{}\n", points.collect::<String>())
}
