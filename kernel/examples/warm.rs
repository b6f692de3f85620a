//! Seconds of one warm solve with every reading of the wheel, as one number: `warm LAYOUT.json`. For ratios within one run.

#![allow(clippy::print_stdout, reason = "printing is what it is for")]

use kernel::{Demand, Guess, Layout, Linkage, READINGS, Reading, Snapshot, State, Subject};
use std::hint::black_box;
use std::time::Instant;

fn main() -> Result<(), String> {
    let file = std::env::args().nth(1).ok_or("The call is: warm LAYOUT.json")?;
    let layout =
        Layout::from_json(&std::fs::read_to_string(&file).map_err(|e| format!("{file} can’t be read: {e}."))?)?;
    let linkage = Linkage::new(&layout).map_err(|problems| problems[0].to_string())?;
    let readings: Vec<_> = READINGS.iter().filter(|reading| reading.subject() == Subject::Wheel).collect();
    let mut times: Vec<f64> = (0..200).map(|_| walk(&linkage, &readings)).collect::<Result<_, _>>()?;
    times.sort_by(f64::total_cmp);
    println!("{:e}", times[times.len() / 2]);
    Ok(())
}

/// Seconds a state over a walk in steps of 1 mm of travel and 0.3 mm of rack.
fn walk(linkage: &Linkage, readings: &[&Reading]) -> Result<f64, String> {
    const STEPS: i32 = 50;
    let mut guess = Guess::at_rest(linkage);
    let start = Instant::now();
    for i in 1..=STEPS {
        let demand = Demand::new(f64::from(i), 0.3 * f64::from(i));
        let state = State::solve(linkage, demand, guess).map_err(|why| why.to_string())?;
        let snapshot = Snapshot::of(&state);
        for reading in readings {
            black_box((reading.value)(&snapshot));
        }
        guess = guess.onward(&state);
    }
    Ok(start.elapsed().as_secs_f64() / f64::from(STEPS))
}
