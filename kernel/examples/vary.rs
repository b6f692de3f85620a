//! Questions about a layout whose numbers vary, on the command line:
//! `vary LAYOUT.json sensitivity --travel=T --rack=R [--wheel=left|right]`, `vary LAYOUT.json repair FOUND.json`
//!
//! `sensitivity` prints CSV, one row a parameter: each reading's derivative per mm or degree of it, at a travel and rack (each 0 if left out), rack
//! and travel held. Caster and inclination by sweep are those where the car stands. `--wheel=right` asks the right wheel as if it were a left one:
//! toe-in positive, and the rack positive when it moves to the right of the car.
//! `repair` reads what was found (readings with their errors, those of the right wheel as `--wheel=right` would print them) and prints CSV, one row
//! a cause, the best first. A sweep's travel is that at which the car stood on the rig; the sweep is to 20° each way.
//! A file's `changes` are built in.
//! Exit code 1, with a sentence on standard error, for a bad call, a bad file, or an axle that can't be assembled.

mod common;

use common::{ended, heard, once, print, read_file, read_number, read_wheel};
use kernel::repair::{Causes, Found};
use kernel::vary::Sensitivity;
use kernel::{Layout, LeftOrRight};
use std::io::{BufWriter, Write, stdout};
use std::process::ExitCode;

const USAGE: &str =
    "vary LAYOUT.json sensitivity --travel=T --rack=R [--wheel=left|right], or vary LAYOUT.json repair FOUND.json";

/// What stands on the command line.
#[derive(Default)]
struct Call {
    words: Vec<String>,
    travel: Option<f64>,
    rack: Option<f64>,
    wheel: Option<LeftOrRight>,
}

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), String> {
    let call = read_call()?;
    let words: Vec<&str> = call.words.iter().map(String::as_str).collect();
    let options = call.travel.is_some() || call.rack.is_some() || call.wheel.is_some();
    let table = match words[..] {
        [layout, "sensitivity"] => sensitivity(layout, &call)?,
        [_, "repair", _] if options => {
            return Err("repair takes no options; travel, rack and side stand with each value in its file.".into());
        }
        [layout, "repair", found] => repair(layout, found)?,
        [_, "repair"] => return Err(format!("No file of what was found is named. Usage: {USAGE}")),
        [] => return Err(format!("No layout file is named. Usage: {USAGE}")),
        [_] => return Err(format!("No question is asked. Usage: {USAGE}")),
        [_, "sensitivity", other, ..] | [_, "repair", _, other, ..] | [_, other, ..] => {
            return Err(format!("Unknown argument “{other}”. Usage: {USAGE}"));
        }
    };
    let mut out = BufWriter::new(stdout().lock());
    print(&mut out, table.trim_end())?;
    out.flush().or_else(heard)
}

fn layout(file: &str) -> Result<Layout, String> {
    Layout::from_json(&read_file(file)?)
}

fn sensitivity(file: &str, call: &Call) -> Result<String, String> {
    let layout = layout(file)?;
    let (travel, rack) = (call.travel.unwrap_or_default(), call.rack.unwrap_or_default());
    let side = call.wheel.unwrap_or_default();
    Sensitivity::at(&layout, side, travel, rack).map(|all| all.table(&layout)).map_err(|why| why.to_string())
}

fn repair(file: &str, found: &str) -> Result<String, String> {
    let layout = layout(file)?;
    let found = Found::from_json(&read_file(found)?, &layout)?;
    Causes::of(&found, &layout).map(|causes| causes.table(&layout)).map_err(|why| why.to_string())
}

fn read_call() -> Result<Call, String> {
    let (mut call, mut given) = (Call::default(), Vec::new());
    for argument in std::env::args().skip(1) {
        once(&mut given, &argument)?;
        if let Some(travel) = argument.strip_prefix("--travel=") {
            call.travel = Some(read_number(travel)?);
        } else if let Some(rack) = argument.strip_prefix("--rack=") {
            call.rack = Some(read_number(rack)?);
        } else if let Some(name) = argument.strip_prefix("--wheel=") {
            call.wheel = Some(read_wheel(name)?);
        } else if argument.starts_with('-') {
            return Err(format!("Unknown argument “{argument}”. Usage: {USAGE}"));
        } else {
            call.words.push(argument);
        }
    }
    Ok(call)
}
