//! Wheel space over the usual grid: a position a piece; the answer comes with the last.

use super::Job;
use crate::study::space::{Room, pieces};
use kernel::space::{At, Clearance, Extreme, Grid, Piece, Space};
use kernel::{Axle, Demand, Layout, LeftOrRight};

/// What its tasks begin with.
pub const NAME: &str = "space";

/// The task for a wheel of a layout.
pub fn task(layout: &Layout, side: LeftOrRight) -> String {
    format!("{NAME}\n{}\n{}", side.name(), layout.to_json())
}

/// What an answer tells; `None` where the wheel reaches no position of the grid.
pub fn room(layout: &Layout, answer: &str) -> Option<Room> {
    let (all, mut room) = (pieces(layout), Room::default());
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
        self.demands.len() + self.ahead.len()
    }

    fn step(&mut self) -> String {
        match self.done.checked_sub(self.demands.len()) {
            None => self.space.meet(self.demands[self.done]),
            Some(at) => self.space.meet_ahead(self.ahead[at]),
        }
        self.done += 1;
        if self.done < self.pieces() { String::new() } else { self.lines() }
    }
}

impl Sweep {
    fn lines(&self) -> String {
        let (space, all) = (&self.space, pieces(&self.layout));
        let side = space.pieces().side_plane();
        let (litres, turning) = (space.litres(side), space.turning_litres(side));
        let mut lines = format!("litres\t\t{litres}\t{turning}\t{}\n", space.unreached().len());
        for (name, Extreme { value, at }) in space.reach().named() {
            lines += &format!("reach\t{name}\t{value}\t{}\t{}\n", at.travel, at.rack);
        }
        let place = |piece: Piece| all.iter().position(|other| *other == piece).unwrap_or(all.len());
        for Clearance { between: [a, b], value, at } in space.clearances() {
            lines += &format!("clearance\t{} {}\t{value}\t{}\t{}\n", place(a), place(b), at.travel, at.rack);
        }
        lines
    }
}
