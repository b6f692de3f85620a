//! Wheel space over the usual grid: a position a piece; the last tells the answer.

use super::Job;
use crate::study::space::{Contour, Room};
use kernel::space::{At, Clearance, Depth, Extreme, Grid, Piece, Seen, Space};
use kernel::{Axle, Demand, Layout, LeftOrRight};

/// What its tasks begin with.
pub const NAME: &str = "space";

/// From one line of depth to the next, mm.
const DEEPER: f64 = 20.0;

/// The task for a wheel of a layout.
pub fn task(layout: &Layout, side: LeftOrRight) -> String {
    format!("{NAME}\n{}\n{}", side.name(), layout.to_json())
}

/// What an answer tells; `None` where the wheel reaches no position of the grid.
pub fn room(layout: &Layout, answer: &str) -> Option<Room> {
    let (all, mut room) = (Piece::all(layout), Room::default());
    for line in answer.lines() {
        let mut cells = line.split('\t');
        let (kind, name) = (cells.next()?, cells.next()?);
        let numbers: Vec<f64> = cells.map_while(|cell| cell.parse().ok()).collect();
        match (kind, numbers[..].as_ref()) {
            ("litres", &[litres, turning, unreached]) => {
                (room.litres, room.turning, room.unreached) = (litres, turning, unreached as usize);
            }
            ("reach", &[value, travel, rack]) => {
                room.reach.push((name.into(), Extreme { value, at: At { travel, rack } }));
            }
            ("clearance", &[value, travel, rack]) => {
                let (a, b) = name.split_once(' ')?;
                let piece = |text: &str| all.get(text.parse::<usize>().ok()?).copied();
                let between = [piece(a)?, piece(b)?];
                room.clearances.push(Clearance { between, value, at: At { travel, rack } });
            }
            ("depth", [y, line @ ..]) => {
                room.depth.push(Contour { y: *y, closed: name == CLOSED, points: line.as_chunks().0.to_vec() });
            }
            ("arch", line) => room.arch.push(line.as_chunks().0.to_vec()),
            _ => return None,
        }
    }
    (!room.reach.is_empty()).then_some(room)
}

/// Reads a task.
pub fn start(task: &str) -> Result<Box<dyn Job>, String> {
    let (side, layout) = task.split_once('\n').unwrap_or_default();
    let side = if side == LeftOrRight::Right.name() { LeftOrRight::Right } else { LeftOrRight::Left };
    let layout = Layout::from_json(layout)?;
    let axle = Axle::new(&layout).map_err(|why| why.to_string())?;
    let grid = Grid::usual(&layout);
    let (demands, ahead) = (grid.demands().collect(), grid.ahead().collect());
    Ok(Box::new(Sweep { space: Space::of(&axle, side), layout, demands, ahead, done: 0 }))
}

/// A grid under way.
struct Sweep {
    layout: Layout,
    space: Space,
    demands: Vec<Demand>,
    /// What going straight ahead needs besides.
    ahead: Vec<Demand>,
    done: usize,
}

impl Job for Sweep {
    fn pieces(&self) -> usize {
        self.demands.len() + self.ahead.len() + 1
    }

    fn step(&mut self) -> String {
        let at = self.done;
        self.done += 1;
        match (self.demands.get(at), self.ahead.get(at.saturating_sub(self.demands.len()))) {
            (Some(demand), _) => self.space.meet(*demand),
            (None, Some(demand)) => self.space.meet_ahead(*demand),
            (None, None) => return self.lines(),
        }
        String::new()
    }
}

impl Sweep {
    fn lines(&self) -> String {
        let (space, all) = (&self.space, Piece::all(&self.layout));
        let side = space.pieces().side_plane();
        let (litres, turning) = (space.litres(side), space.turning_litres(side));
        let mut lines = format!("litres\t\t{litres}\t{turning}\t{}\n", space.unreached().len());
        for (name, Extreme { value, at }) in space.reach().named() {
            lines += &format!("reach\t{name}\t{value}\t{}\t{}\n", at.travel, at.rack);
        }
        let number = |piece: Piece| all.iter().position(|other| *other == piece).unwrap_or(all.len());
        let through = space.pieces().through();
        let apart = space.clearances().into_iter().filter(|one| !through.contains(&one.between));
        for Clearance { between: [a, b], value, at } in apart {
            lines += &format!("clearance\t{} {}\t{value}\t{}\t{}\n", number(a), number(b), at.travel, at.rack);
        }
        lines += &depth(&space.envelope().depth());
        for outline in space.outlines(Seen::Side, 0.0) {
            lines += &format!("arch\t{CLOSED}{}\n", outline.iter().map(|p| place(p.x, p.z)).collect::<String>());
        }
        lines
    }
}

/// What a line that comes back to where it began is called.
const CLOSED: &str = "closed";

/// The lines of all depths.
fn depth(depth: &Depth) -> String {
    let known = || depth.least.iter().copied().flatten();
    let [least, most] = [known().fold(f64::INFINITY, f64::min), known().fold(f64::NEG_INFINITY, f64::max)];
    let mut lines = String::new();
    let mut level = (least / DEEPER).ceil() * DEEPER;
    while level < most {
        for border in depth.contour(level) {
            let points: String = border.points.iter().map(|p| place(p.x, p.z)).collect();
            lines += &format!("depth\t{}\t{level}{points}\n", if border.closed { CLOSED } else { "open" });
        }
        level += DEEPER;
    }
    lines
}

/// To the tenth of a millimetre.
fn place(x: f64, z: f64) -> String {
    format!("\t{x:.1}\t{z:.1}")
}
