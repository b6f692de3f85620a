//! Seconds that long questions take, a line each, name and seconds: `long LAYOUT.json ERRORS.json GOALS.json`. `axles`: the readings of 10,000 drawn
//! axles at the travels of the errors; `goals`: the search from all starts. For ratios within one run.

#![allow(clippy::print_stdout, reason = "printing is what it is for")]

use kernel::vary::goals::{Goals, Search};
use kernel::vary::spread::{Asked, Spread};
use kernel::{Layout, LeftOrRight};
use std::time::Instant;

/// Axles that are drawn.
const AXLES: u32 = 10_000;

fn main() -> Result<(), String> {
    let mut files = std::env::args().skip(1);
    let mut next = || {
        let file = files.next().ok_or("The call is: long LAYOUT.json ERRORS.json GOALS.json")?;
        std::fs::read_to_string(&file).map_err(|e| format!("{file} can’t be read: {e}."))
    };
    let layout = Layout::from_json(&next()?)?;
    let asked = Asked::from_json(&next()?, &layout)?;
    let goals = Goals::from_json(&next()?, &layout)?;
    let start = Instant::now();
    let spread = Spread::new(&layout, LeftOrRight::Left, &asked, 1, |_| false);
    let mut spread = spread.map_err(|why| why.to_string())?;
    (0..AXLES).for_each(|_| spread.draw());
    println!("axles {:e}", start.elapsed().as_secs_f64());
    let start = Instant::now();
    let mut search = Search::new(&layout, goals).map_err(|why| why.to_string())?;
    (0..search.starts()).for_each(|_| search.step());
    println!("goals {:e}", start.elapsed().as_secs_f64());
    Ok(())
}
