//! The table on the command line:
//! `sweep LAYOUT.json --travel=A..B/STEP --rack=A..B/STEP [--force=FX,FY,FZ | --case=NAME]`
//!
//! Prints CSV, one row a state, travel outside and rack inside. A single number is a range of one; a range left out is 0.
//! `--case` adds the same columns as `--force`, for a load case: its force at the wheel centre and the wheel's weight count too.
//! Exit code 1, with a sentence on standard error, for a bad call, a bad file, or a state that can't be assembled (the rows
//! before it are printed).

#![allow(clippy::print_stdout, reason = "printing is what it is for")]

use kernel::{Demand, Layout, Linkage, Load, LoadCase, Setting, State, Vec3, range, sweep, table};
use std::process::ExitCode;

struct Call {
    file: String,
    travel: Vec<f64>,
    rack: Vec<f64>,
    force: Option<Vec3>,
    case: Option<&'static LoadCase>,
}

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<(), String> {
    let call = read_call()?;
    let text = std::fs::read_to_string(&call.file).map_err(|e| format!("{} can’t be read: {e}.", call.file))?;
    let layout = Layout::from_json(&text)?;
    let linkage = Linkage::new(&layout)
        .map_err(|problems| problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))?;
    let load = load(&call, &layout, &linkage)?;
    println!("{}", table::header(&linkage, load.is_some()));
    let demands = call.travel.iter().flat_map(|&travel| call.rack.iter().map(move |&rack| Demand::new(travel, rack)));
    for (solved, demand) in sweep(&linkage, demands.clone()).zip(demands) {
        let state = State::read(&linkage, &solved.map_err(|why| why.to_string())?);
        println!("{}", table::row(&linkage, &demand, &state, load.as_ref())?);
    }
    Ok(())
}

/// The load to carry: a force at the road, or a case of the layout's vehicle.
fn load(call: &Call, layout: &Layout, linkage: &Linkage) -> Result<Option<Load>, String> {
    if let Some(case) = call.case {
        let rest = sweep(linkage, [Demand::new(0.0, 0.0)]).next().ok_or("There is no rest position.")?;
        let rest = State::read(linkage, &rest.map_err(|why| why.to_string())?);
        return Ok(Some((case.load)(&Setting::new(layout, &rest))));
    }
    Ok(call.force.map(|road| Load { road, ..Load::default() }))
}

fn read_call() -> Result<Call, String> {
    let mut call = Call { file: String::new(), travel: vec![0.0], rack: vec![0.0], force: None, case: None };
    for argument in std::env::args().skip(1) {
        if let Some(range) = argument.strip_prefix("--travel=") {
            call.travel = read_range(range)?;
        } else if let Some(range) = argument.strip_prefix("--rack=") {
            call.rack = read_range(range)?;
        } else if let Some(force) = argument.strip_prefix("--force=") {
            let parts = force.split(',').map(read_number).collect::<Result<Vec<_>, _>>()?;
            let [x, y, z] = parts[..] else {
                return Err(format!("--force takes three numbers FX,FY,FZ, not “{force}”."));
            };
            call.force = Some(Vec3::new(x, y, z));
        } else if let Some(name) = argument.strip_prefix("--case=") {
            let names: Vec<&str> = LoadCase::all().iter().map(|case| case.key).collect();
            let case = LoadCase::named(name);
            call.case = Some(case.ok_or_else(|| format!("“{name}” is no load case; there are {}.", names.join(", ")))?);
        } else if argument.starts_with('-') || !call.file.is_empty() {
            return Err(format!("“{argument}” is not understood; the call is: {USAGE}"));
        } else {
            call.file = argument;
        }
    }
    if call.file.is_empty() {
        return Err(format!("No layout file is named; the call is: {USAGE}"));
    }
    Ok(call)
}

const USAGE: &str = "sweep LAYOUT.json --travel=A..B/STEP --rack=A..B/STEP [--force=FX,FY,FZ | --case=NAME]";

fn read_number(text: &str) -> Result<f64, String> {
    let value: f64 = text.trim().parse().map_err(|_| format!("“{text}” is not a number."))?;
    value.is_finite().then_some(value).ok_or_else(|| format!("“{text}” is not a number that can be used."))
}

/// `A..B/STEP`, both ends included where the step meets them, or one number.
fn read_range(text: &str) -> Result<Vec<f64>, String> {
    let Some((from, rest)) = text.split_once("..") else { return Ok(vec![read_number(text)?]) };
    let (to, step) = rest.split_once('/').ok_or_else(|| format!("The range “{text}” has no /STEP."))?;
    range(read_number(from)?, read_number(to)?, read_number(step)?).map_err(|why| format!("The range “{text}” {why}."))
}
