//! Wheel space on the command line: `space LAYOUT.json [--travel=A..B/STEP] [--rack=A..B/STEP] [--side=Y] [--wheel=left|right]`
//!
//! Moves a wheel over a grid of travels and rack displacements (left out: from stop to stop, or 60 mm each way, and the rack's whole stroke) and
//! prints `key,value` lines: the litres of its envelope inboard of the plane y = Y (left out: the tyre's outermost y at rest), what of them steering
//! costs, how far the tyre reaches; `unreached,travel,rack` for each position that can't be assembled, which is left out of all else; then
//! `clearance_mm,A,B,value,travel,rack`, the least distance of each two pieces and where, the least first. A negative one only says that they meet;
//! its size is no depth. A file's `changes` are built in. `--wheel=right` asks the right wheel as if it were a left one. Exit code 1, with a sentence
//! on standard error, for a bad call, a bad file, or a wheel that reaches no position of the grid.

mod common;
#[path = "common/ranges.rs"]
mod ranges;

use common::{ended, heard, once, print, read_file, read_number, read_wheel};
use kernel::space::{Clearance, Grid, Space};
use kernel::{Axle, Layout, LeftOrRight};
use ranges::read_range;
use std::io::{BufWriter, Write, stdout};
use std::process::ExitCode;

const USAGE: &str = "space LAYOUT.json [--travel=A..B/STEP] [--rack=A..B/STEP] [--side=Y] [--wheel=left|right]";

/// More positions than this are a slip in a step, not a wish.
const MOST_POSITIONS: usize = 10_000;

/// What stands on the command line.
#[derive(Default)]
struct Call {
    file: String,
    travel: Option<Vec<f64>>,
    rack: Option<Vec<f64>>,
    side: Option<f64>,
    wheel: LeftOrRight,
}

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), String> {
    let call = read_call()?;
    let layout = Layout::from_json(&read_file(&call.file)?)?;
    let axle = Axle::new(&layout).map_err(|why| why.to_string())?;
    let usual = Grid::usual(&layout);
    let grid = Grid { travels: call.travel.unwrap_or(usual.travels), racks: call.rack.unwrap_or(usual.racks) };
    let positions = grid.travels.len() * grid.racks.len();
    if positions > MOST_POSITIONS {
        return Err(format!("The grid has {positions} positions; it may have {MOST_POSITIONS} at most."));
    }
    let space = Space::over(&axle, call.wheel, &grid);
    if space.unreached().len() == positions {
        return Err("The wheel reaches no position of this grid.".into());
    }
    let side = call.side.unwrap_or_else(|| space.pieces().side_plane());
    let mut out = BufWriter::new(stdout().lock());
    for line in lines(&layout, &space, side) {
        if !print(&mut out, &line)? {
            return Ok(());
        }
    }
    out.flush().or_else(heard)
}

/// Litres to the cubic millimetre, lengths to the tenth of a micrometre.
fn lines(layout: &Layout, space: &Space, side: f64) -> Vec<String> {
    let mut lines = vec![
        format!("space_l,{:.6}", space.litres(side)),
        format!("turning_space_l,{:.6}", space.turning_litres(side)),
    ];
    lines.extend(space.reach().named().map(|(name, extreme)| format!("{name},{:.4}", extreme.value)));
    lines.extend(space.unreached().iter().map(|at| format!("unreached,{},{}", at.travel, at.rack)));
    let clearance = |Clearance { between, value, at }: Clearance| {
        let [a, b] = between.map(|piece| cell(piece.name(layout)));
        format!("clearance_mm,{a},{b},{value:.4},{},{}", at.travel, at.rack)
    };
    lines.extend(space.clearances().into_iter().map(clearance));
    lines
}

/// A name as a cell of a table: in quotes if it has a comma or a quote (RFC 4180).
fn cell(name: String) -> String {
    if name.contains([',', '"']) { format!("\"{}\"", name.replace('"', "\"\"")) } else { name }
}

fn read_call() -> Result<Call, String> {
    let (mut call, mut given) = (Call::default(), Vec::new());
    for argument in std::env::args().skip(1) {
        once(&mut given, &argument)?;
        if let Some(range) = argument.strip_prefix("--travel=") {
            call.travel = Some(read_range(range)?);
        } else if let Some(range) = argument.strip_prefix("--rack=") {
            call.rack = Some(read_range(range)?);
        } else if let Some(side) = argument.strip_prefix("--side=") {
            call.side = Some(read_number(side)?);
        } else if let Some(name) = argument.strip_prefix("--wheel=") {
            call.wheel = read_wheel(name)?;
        } else if argument.starts_with('-') || !call.file.is_empty() {
            return Err(format!("Unknown argument “{argument}”. Usage: {USAGE}"));
        } else {
            call.file = argument;
        }
    }
    if call.file.is_empty() {
        return Err(format!("No layout file is named. Usage: {USAGE}"));
    }
    Ok(call)
}
