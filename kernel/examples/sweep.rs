//! The table on the command line:
//! `sweep LAYOUT.json --travel=A..B/STEP --rack=A..B/STEP [--force=FX,FY,FZ]`
//!
//! Prints CSV, one row a state, travel outside and rack inside. A single number is a range of one; a range left out is 0.
//! Exit code 1, with a sentence on standard error, for a bad call, a bad file, or a state that can't be assembled (the rows
//! before it are printed).

#![allow(clippy::print_stdout, reason = "printing is what it is for")]

use kernel::{Demand, Layout, Linkage, Member, MemberForces, READINGS, State, Vec3, sweep};
use std::fmt::Write as _;
use std::process::ExitCode;

/// More rows than this are refused: a slipped decimal point in the step, not a wish.
const MOST_ROWS: usize = 1_000_000;

const MEMBERS: [(Member, &str); 5] = [
    (Member::LowerFront, "force_lower_front_n"),
    (Member::LowerRear, "force_lower_rear_n"),
    (Member::UpperFront, "force_upper_front_n"),
    (Member::UpperRear, "force_upper_rear_n"),
    (Member::TrackRod, "force_track_rod_n"),
];

struct Call {
    file: String,
    travel: Vec<f64>,
    rack: Vec<f64>,
    force: Option<Vec3>,
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
    println!("{}", header(&linkage, call.force.is_some()));
    let demands = call.travel.iter().flat_map(|&travel| call.rack.iter().map(move |&rack| Demand::new(travel, rack)));
    for (solved, demand) in sweep(&linkage, demands.clone()).zip(demands) {
        let state = State::read(&linkage, &solved.map_err(|why| why.to_string())?);
        println!("{}", row(&linkage, demand, &state, call.force)?);
    }
    Ok(())
}

fn read_call() -> Result<Call, String> {
    let mut call = Call { file: String::new(), travel: vec![0.0], rack: vec![0.0], force: None };
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
        } else if argument.starts_with('-') || !call.file.is_empty() {
            return Err(format!("“{argument}” is not understood; the call is: {USAGE}"));
        } else {
            call.file = argument;
        }
    }
    if call.file.is_empty() {
        return Err(format!("No layout file is named; the call is: {USAGE}"));
    }
    match call.travel.len().checked_mul(call.rack.len()) {
        Some(rows) if rows <= MOST_ROWS => Ok(call),
        _ => Err(format!("The ranges make more than {MOST_ROWS} rows.")),
    }
}

const USAGE: &str = "sweep LAYOUT.json --travel=A..B/STEP --rack=A..B/STEP [--force=FX,FY,FZ]";

fn read_number(text: &str) -> Result<f64, String> {
    let value: f64 = text.trim().parse().map_err(|_| format!("“{text}” is not a number."))?;
    value.is_finite().then_some(value).ok_or_else(|| format!("“{text}” is not a number that can be used."))
}

/// `A..B/STEP`, both ends included where the step meets them, or one number.
fn read_range(text: &str) -> Result<Vec<f64>, String> {
    let Some((from, rest)) = text.split_once("..") else { return Ok(vec![read_number(text)?]) };
    let (to, step) = rest.split_once('/').ok_or_else(|| format!("The range “{text}” has no /STEP."))?;
    let (from, to, step) = (read_number(from)?, read_number(to)?, read_number(step)?.abs());
    if step == 0.0 {
        return Err(format!("The range “{text}” has a step of 0."));
    }
    // A millionth of a step forgives the rounding of ends such as 0.3/0.1.
    let steps = ((to - from).abs() / step + 1e-6).floor();
    if steps >= MOST_ROWS as f64 {
        return Err(format!("The range “{text}” makes more than {MOST_ROWS} rows."));
    }
    Ok((0..=steps as usize).map(|i| from + (to - from).signum() * step * i as f64).collect())
}

fn header(linkage: &Linkage, forces: bool) -> String {
    let mut columns: Vec<&str> = READINGS.iter().map(|reading| reading.column).collect();
    if forces {
        columns.extend(MEMBERS.iter().map(|(_, column)| column));
        columns.push("force_spring_n");
        if linkage.rows.iter().any(|row| row.member == Member::Strut) {
            columns.push("force_strut_side_n");
        }
    }
    columns.join(",")
}

/// One row. Travel and rack are printed as asked for: the solver met them to the last digits.
fn row(linkage: &Linkage, demand: Demand, state: &State, force: Option<Vec3>) -> Result<String, String> {
    let asked = |column: &str, value: Option<f64>| match (column, demand.height, demand.steering) {
        ("travel_mm", kernel::Height::Travel(travel), _) => Some(travel),
        ("rack_mm", _, kernel::Steering::Rack(rack)) => Some(rack),
        _ => value,
    };
    let mut values: Vec<Option<f64>> =
        READINGS.iter().map(|reading| asked(reading.column, (reading.value)(state))).collect();
    if let Some(force) = force {
        let forces = MemberForces::under_road_force(state, force)
            .ok_or_else(|| format!("At {demand} the members can’t hold the wheel: the position is singular."))?;
        values.extend(MEMBERS.iter().map(|(member, _)| forces.tension(linkage, *member)));
        values.push(Some(forces.spring));
        if let Some(side) = forces.strut_side(linkage) {
            values.push(Some(side));
        }
    }
    let mut line = String::new();
    for (i, value) in values.into_iter().enumerate() {
        let comma = if i == 0 { "" } else { "," };
        // Adding 0 turns −0 into 0.
        let text = value.map_or(String::new(), |value| (value + 0.0).to_string());
        write!(line, "{comma}{text}").map_err(|e| e.to_string())?;
    }
    Ok(line)
}
