//! The outlines of the tyre's envelope over the usual grid: the positions are the first piece, each view is one more. With a margin each view is
//! another one, and then some tyres at a time for its litres.

use super::Job;
use crate::study::space::Outlines;
use kernel::space::{Envelope, Grid, Pieces, Seen, Tyre, outlines};
use kernel::{Axle, Guess, Layout, LeftOrRight, State, Vec3};

/// What its tasks begin with.
pub const NAME: &str = "outlines";

/// The views, in the order of the answer.
const VIEWS: [Seen; 3] = [Seen::Front, Seen::Side, Seen::Plan];

/// What the line of the litres begins with.
const LITRES: &str = "litres";

/// As many tyres are taken in at once.
const AT_ONCE: usize = 8;

/// The task for a wheel of a layout, with a margin, mm; without one it is 0.
pub fn task(layout: &Layout, side: LeftOrRight, margin: f64) -> String {
    format!("{NAME}\n{} {margin}\n{}", side.name(), layout.to_json())
}

/// The outlines of an answer: a line each, the view's number (with the margin three more) and its points.
pub fn read(answer: &str) -> Outlines {
    let mut read = Outlines::default();
    for line in answer.lines() {
        let mut cells = line.split('\t');
        let first = cells.next();
        if first == Some(LITRES) {
            read.litres = cells.next().and_then(|litres| litres.parse().ok());
            continue;
        }
        let view = first.and_then(|view| view.parse::<usize>().ok());
        let point = |cell: &str| {
            let mut numbers = cell.split(' ').map_while(|number| number.parse().ok());
            Some(Vec3::new(numbers.next()?, numbers.next()?, numbers.next()?))
        };
        if let Some(view) = view.and_then(|view| read.tyre.iter_mut().chain(&mut read.margin).nth(view)) {
            view.push(cells.filter_map(point).collect());
        }
    }
    read
}

/// Reads a task.
pub fn start(task: &str) -> Result<Box<dyn Job>, String> {
    let (first, layout) = task.split_once('\n').unwrap_or_default();
    let (side, margin) = first.split_once(' ').unwrap_or_default();
    let side = if side == LeftOrRight::Right.name() { LeftOrRight::Right } else { LeftOrRight::Left };
    let layout = Layout::from_json(layout)?;
    let axle = Axle::new(&layout).map_err(|why| why.to_string())?;
    let margin = margin.parse::<f64>().map_err(|_| format!("“{margin}” is no margin."))?;
    let (pieces, grid) = (Pieces::of(&axle, side), Grid::usual(&layout));
    Ok(Box::new(Traced { pieces, grid, margin, tyres: Vec::new(), wide: Envelope::default(), done: 0 }))
}

struct Traced {
    pieces: Pieces,
    grid: Grid,
    /// mm; 0 without one.
    margin: f64,
    tyres: Vec<Tyre>,
    /// The room of the tyre with the margin round it.
    wide: Envelope,
    done: usize,
}

impl Job for Traced {
    fn pieces(&self) -> usize {
        1 + VIEWS.len() + if self.margin > 0.0 { VIEWS.len() + self.parts() } else { 0 }
    }

    fn step(&mut self) -> String {
        let at = self.done.checked_sub(1);
        self.done += 1;
        match at {
            None => {
                self.solve();
                String::new()
            }
            Some(view) if view < VIEWS.len() => self.traced(view, view, 0.0),
            Some(view) if view < 2 * VIEWS.len() => self.traced(view, view - VIEWS.len(), self.margin),
            Some(part) => self.filled(part - 2 * VIEWS.len()),
        }
    }
}

impl Traced {
    /// In so many pieces all tyres are taken in.
    fn parts(&self) -> usize {
        (self.grid.travels.len() * self.grid.racks.len()).div_ceil(AT_ONCE)
    }

    fn traced(&self, number: usize, view: usize, margin: f64) -> String {
        outlines(&self.tyres, VIEWS[view], margin).iter().map(|line| written(number, line)).collect()
    }

    /// Takes in the next tyres; with the last ones the litres are known.
    fn filled(&mut self, part: usize) -> String {
        for tyre in self.tyres.iter().skip(part * AT_ONCE).take(AT_ONCE) {
            self.wide.add(&tyre.with_margin(self.margin));
        }
        let last = part + 1 == self.parts() && !self.tyres.is_empty();
        if last { format!("{LITRES}\t{}\n", self.wide.litres(self.pieces.side_plane())) } else { String::new() }
    }

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
