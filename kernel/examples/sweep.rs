//! The table on the command line:
//! `sweep LAYOUT.json --travel=A..B/STEP --rack=A..B/STEP [--force=FX,FY,FZ | --case=NAME] [--axle [--roll=A..B/STEP]] [--rig] [--elastic] [--wheel=left|right]`
//!
//! Prints CSV, one row a state, travel outside and rack inside. A single number is a range of one; a range left out is 0.
//! `--case` adds the same columns as `--force`, for a load case: its force at the wheel centre and the wheel's weight count too.
//! `--axle` puts both wheels on one road at that mean travel and roll (outermost) and appends the columns of the whole axle; the wheel's columns are
//! those of the left wheel there, at the travel that it has then.
//! A file's `changes` are built in. `--wheel=right` prints the right wheel as if it were a left one: toe-in positive, and the rack positive when it
//! moves to the right of the car. With `--axle` the wheel's columns are always the left one's, and the rack is the car's.
//! `--rig` appends caster, inclination and included angle as a rig's steering sweep to 20° each way finds them at that travel, whatever the rack.
//! `--elastic` appends, last of all, what gives way at the left wheel under unit loads on both; with `--case` or `--force` also what gives way under
//! that: under its own share of the case on each wheel, less standing, or under the force on both wheels. Cells are empty for a rigid layout.
//! A row that can't be reached from the row before it without taking the linkage apart is told of on standard error.
//! Exit code 1, with a sentence on standard error, for a bad call, a bad file, or a state that can't be assembled (the rows
//! before it are printed).

mod common;
#[path = "common/ranges.rs"]
mod ranges;

use common::{ended, heard, once, print, read_file, read_number, read_wheel};
use kernel::{
    Axle, Bushes, Demand, Guess, Layout, LeftOrRight, Load, LoadCase, Setting, Snapshot, Stance, State, Subject, Table,
    UnderLoad, Vec3, Whole, case_wrenches, force_wrenches, sweep, under_load_header, under_load_row,
};
use ranges::read_range;
use std::io::{BufWriter, Write, stdout};
use std::process::ExitCode;
use std::rc::Rc;

struct Call {
    file: String,
    travel: Vec<f64>,
    rack: Vec<f64>,
    force: Option<Vec3>,
    case: Option<&'static LoadCase>,
    axle: bool,
    roll: Vec<f64>,
    wheel: LeftOrRight,
    rig: bool,
    elastic: bool,
}

impl Call {
    /// Of what the table has readings.
    fn subjects(&self) -> Vec<Subject> {
        let asked = [(Subject::Axle, self.axle), (Subject::Rig, self.rig), (Subject::Elastic, self.elastic)];
        let asked = asked.into_iter().filter(|(_, asked)| *asked).map(|(subject, _)| subject);
        [Subject::Wheel].into_iter().chain(asked).collect()
    }

    /// True if it is asked what gives way under a load.
    fn gives_way_under_load(&self) -> bool {
        self.elastic && (self.case.is_some() || self.force.is_some())
    }
}

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), String> {
    let call = read_call()?;
    let layout = Layout::from_json(&read_file(&call.file)?)?;
    let axle = Axle::new(&layout).map_err(|why| why.to_string())?.looking_at(call.wheel);
    let linkage = axle.linkage();
    let load = load(&call, &axle)?;
    let mut out = BufWriter::new(stdout().lock());
    if call.axle {
        return both_wheels(&call, axle, load.as_ref(), &mut out);
    }
    let mut gives_way = GivesWay::asked(&call, &axle);
    let subjects = call.subjects();
    let table = Table { linkage, load: load.as_ref(), of: &subjects };
    if !print(&mut out, &(table.header() + &GivesWay::header(&call)))? {
        return Ok(());
    }
    let demands = call.travel.iter().flat_map(|&travel| call.rack.iter().map(move |&rack| Demand::new(travel, rack)));
    for (solved, demand) in sweep(linkage, demands.clone()).zip(demands) {
        let solved = solved.map_err(|why| why.to_string())?;
        if !solved.connected {
            eprintln!(
                "The row at {demand} is not connected with the row before it: the linkage can’t move from the one to the other."
            );
        }
        let state = State::read(linkage, &solved);
        let other = gives_way.as_mut().map(|gives_way| gives_way.other(&state)).transpose()?;
        let snapshot = Snapshot::alone(&axle, &state).from_design();
        let (snapshot, states) = match &other {
            Some(other) => (snapshot.beside(other), axle.shown().left_first(&state, other)),
            None => (snapshot, [&state; 2]),
        };
        let row = table.row(&demand, &snapshot)?;
        let under_load = gives_way.as_ref().map_or(Ok(String::new()), |gives_way| gives_way.under_load(states))?;
        if !print(&mut out, &(row + &under_load))? {
            return Ok(());
        }
    }
    out.flush().or_else(heard).map(|_| ())
}

/// The table of both wheels on one road.
fn both_wheels(call: &Call, axle: Axle, load: Option<&Load>, out: &mut impl Write) -> Result<(), String> {
    let axle = Rc::new(axle);
    let subjects = call.subjects();
    let table = Table { linkage: axle.linkage(), load, of: &subjects };
    let gives_way = GivesWay::asked(call, &axle);
    if !print(out, &(table.header() + &GivesWay::header(call)))? {
        return Ok(());
    }
    let mut guess = axle.at_rest();
    for &roll in &call.roll {
        for &travel in &call.travel {
            for &rack in &call.rack {
                let stance = Stance { roll, travel, rack };
                let whole = Whole::at(&axle, stance, &guess).map_err(|why| why.to_string())?;
                guess = whole.axle.sides.each_ref().map(|side| Guess::from(&side.state));
                let snapshot = Snapshot::both(&whole).from_design();
                let row = table.row(&Demand::new(snapshot.wheel.travel, rack), &snapshot)?;
                let states = whole.axle.sides.each_ref().map(|side| &side.state);
                let under_load =
                    gives_way.as_ref().map_or(Ok(String::new()), |gives_way| gives_way.under_load(states))?;
                if !print(out, &(row + &under_load))? {
                    return Ok(());
                }
            }
        }
    }
    out.flush().or_else(heard).map(|_| ())
}

/// What `--elastic` needs beside a wheel, and what it appends for a load, with a comma before it.
struct GivesWay<'a> {
    axle: &'a Axle,
    bushes: Option<Bushes>,
    load: Option<Acts>,
    /// Where the other wheel was before.
    other: Guess,
}

/// What acts besides unit loads.
enum Acts {
    Case(&'static LoadCase, Setting),
    Force(Vec3),
}

impl<'a> GivesWay<'a> {
    fn asked(call: &Call, axle: &'a Axle) -> Option<GivesWay<'a>> {
        let case = call.case.map(|case| Acts::Case(case, Setting::of(axle)));
        let load = case.or(call.force.map(Acts::Force));
        let other = axle.at_rest()[1 - axle.shown().index()];
        call.elastic.then(|| GivesWay { bushes: Bushes::of(axle), axle, load, other })
    }

    fn header(call: &Call) -> String {
        if call.gives_way_under_load() { format!(",{}", under_load_header()) } else { String::new() }
    }

    /// The neighbour of a wheel, at the same travel.
    fn other(&mut self, wheel: &State) -> Result<State, String> {
        let demand = Demand::new(wheel.travel, -wheel.position.rack);
        let linkage = &self.axle.linkages()[1 - self.axle.shown().index()];
        let other = State::solve(linkage, demand, self.other).map_err(|why| format!("The other wheel: {why}"))?;
        self.other = Guess::from(&other);
        Ok(other)
    }

    fn under_load(&self, states: [&State; 2]) -> Result<String, String> {
        let wrenches = match &self.load {
            Some(Acts::Case(case, setting)) => case_wrenches(case, setting, states).map_err(|why| why.to_string())?,
            Some(Acts::Force(force)) => force_wrenches(*force, states),
            None => return Ok(String::new()),
        };
        let both = |bushes| UnderLoad::wrenches(bushes, self.axle, states, &wrenches);
        let both = self.bushes.as_ref().and_then(both);
        Ok(format!(",{}", under_load_row(both.as_ref().map(|sides| &sides[self.axle.shown().index()]))))
    }
}

/// The load to carry: a force at the road, or a case of the layout's vehicle.
fn load(call: &Call, axle: &Axle) -> Result<Option<Load>, String> {
    if let Some(case) = call.case {
        return Ok(Some(case.load(&Setting::of(axle)).map_err(|why| why.to_string())?));
    }
    Ok(call.force.map(|road| Load { road, ..Load::default() }))
}

fn read_call() -> Result<Call, String> {
    let mut call = Call {
        file: String::new(),
        travel: vec![0.0],
        rack: vec![0.0],
        force: None,
        case: None,
        axle: false,
        roll: vec![0.0],
        wheel: LeftOrRight::Left,
        rig: false,
        elastic: false,
    };
    let mut given = Vec::new();
    for argument in std::env::args().skip(1) {
        once(&mut given, &argument)?;
        if let Some(range) = argument.strip_prefix("--travel=") {
            call.travel = read_range(range)?;
        } else if let Some(range) = argument.strip_prefix("--rack=") {
            call.rack = read_range(range)?;
        } else if let Some(name) = argument.strip_prefix("--wheel=") {
            call.wheel = read_wheel(name)?;
        } else if argument == "--axle" {
            call.axle = true;
        } else if argument == "--rig" {
            call.rig = true;
        } else if argument == "--elastic" {
            call.elastic = true;
        } else if let Some(range) = argument.strip_prefix("--roll=") {
            call.roll = read_range(range)?;
        } else if let Some(force) = argument.strip_prefix("--force=") {
            let parts = force.split(',').map(read_number).collect::<Result<Vec<_>, _>>()?;
            let [x, y, z] = parts[..] else {
                return Err(format!("--force takes three numbers FX,FY,FZ, not “{force}”."));
            };
            call.force = Some(Vec3::new(x, y, z));
        } else if let Some(name) = argument.strip_prefix("--case=") {
            let names: Vec<&str> = LoadCase::all().iter().map(|case| case.key).collect();
            let case = LoadCase::named(name);
            call.case =
                Some(case.ok_or_else(|| format!("“{name}” is not a load case; choose one of: {}.", names.join(", ")))?);
        } else if argument.starts_with('-') || !call.file.is_empty() {
            return Err(format!("Unknown argument “{argument}”. Usage: {USAGE}"));
        } else {
            call.file = argument;
        }
    }
    if call.force.is_some() && call.case.is_some() {
        return Err("--force and --case are two loads; give one of them.".into());
    }
    if !call.axle && call.roll != [0.0] {
        return Err("--roll is of the whole axle; give --axle too.".into());
    }
    if let Some(roll) = call.roll.iter().find(|roll| roll.abs() > MOST_ROLL) {
        return Err(format!("A roll of {roll}° is out of range; it goes to {MOST_ROLL}° each way."));
    }
    if call.axle && call.wheel == LeftOrRight::Right {
        return Err("--axle prints the left wheel beside the whole axle; leave --wheel=right out.".into());
    }
    if call.file.is_empty() {
        return Err(format!("No layout file is named. Usage: {USAGE}"));
    }
    Ok(call)
}

const USAGE: &str = "sweep LAYOUT.json --travel=A..B/STEP --rack=A..B/STEP [--force=FX,FY,FZ | --case=NAME] [--axle [--roll=A..B/STEP]] [--rig] [--elastic] [--wheel=left|right]";

/// Further no car rolls before it lies on its side, degrees.
const MOST_ROLL: f64 = 30.0;
