//! Questions about a layout whose numbers vary, on the command line:
//! `vary LAYOUT.json sensitivity --travel=T --rack=R [--wheel=left|right]`, `vary LAYOUT.json repair FOUND.json`,
//! `vary LAYOUT.json spread ERRORS.json [--count=10000] [--seed=1] [--wheel=left|right]`, `vary LAYOUT.json goals GOALS.json`,
//! `vary LAYOUT.json fit MEASURED.json`
//!
//! `sensitivity` prints CSV, one row a parameter: each reading's derivative per mm or degree of it, at a travel and rack (each 0 if left out), rack
//! and travel held. Caster and inclination by sweep are those where the car stands. `--wheel=right` asks the right wheel as if it were a left one:
//! toe-in positive, and the rack positive when it moves to the right of the car.
//! `repair` reads what was found (readings with their errors, those of the right wheel as `--wheel=right` would print them) and prints CSV, one row
//! a cause, the best first. A sweep's travel is that at which the car stood on the rig; the sweep is to 20° each way.
//! `spread` reads what is known to ± so much and prints CSV, a row a travel and reading: how far the reading may be off, by slopes and by so many axles
//! drawn with a seed. How many of them can't be assembled is said on standard error.
//! `goals` reads what is wanted and what may change for it, and prints the best layout as JSON; a report on standard error. Exit code 1 where not all
//! aims are met (the best is printed all the same). `side` says which wheel is asked about; a curve is an aim with lists of `travel`, or of `rack`,
//! and `value`.
//! `fit` reads what was measured with its errors and prints the corrected layout as JSON; a report on standard error.
//! A file's `changes` are built in.
//! Exit code 1, with a sentence on standard error, for a bad call, a bad file, or an axle that can't be assembled.

mod common;

use common::{ended, heard, once, print, read_file, read_number, read_wheel};
use kernel::repair::{Causes, Found};
use kernel::vary::fit::{Fitted, Measured};
use kernel::vary::goals::{Goals, Kept, Search};
use kernel::vary::spread::{Asked, Spread};
use kernel::vary::{Sensitivity, Stopped};
use kernel::{Layout, LeftOrRight};
use std::io::{BufWriter, Write, stdout};
use std::process::ExitCode;

const USAGE: &str = "vary LAYOUT.json sensitivity [--travel=T] [--rack=R] [--wheel=left|right], \
                     or vary LAYOUT.json repair|spread|goals|fit FILE.json [spread: --count=N --seed=S --wheel=left|right]";

/// What stands on the command line.
#[derive(Default)]
struct Call {
    words: Vec<String>,
    options: Vec<(String, String)>,
}

/// What is printed, and whether everything that was asked for came out.
type Told = Result<(String, bool), String>;

/// A question: its name, its options, what answers it, and whether it is asked with a file.
struct Question {
    name: &'static str,
    options: &'static [&'static str],
    asks_a_file: bool,
    answer: fn(&Layout, &str, &Call) -> Told,
}

const QUESTIONS: [Question; 5] = [
    Question { name: "sensitivity", options: &["travel", "rack", "wheel"], asks_a_file: false, answer: sensitivity },
    Question { name: "repair", options: &[], asks_a_file: true, answer: repair },
    Question { name: "spread", options: &["count", "seed", "wheel"], asks_a_file: true, answer: spread },
    Question { name: "goals", options: &[], asks_a_file: true, answer: goals },
    Question { name: "fit", options: &[], asks_a_file: true, answer: fit },
];

fn main() -> ExitCode {
    match run() {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(sentence) => ended(Err(sentence)),
    }
}

fn run() -> Result<bool, String> {
    let call = read_call()?;
    let mut words = call.words.iter().map(String::as_str);
    let layout = words.next().ok_or_else(|| format!("No layout file is named. Usage: {USAGE}"))?;
    let name = words.next().ok_or_else(|| format!("No question is asked. Usage: {USAGE}"))?;
    let unknown = |word: &str| format!("Unknown argument “{word}”. Usage: {USAGE}");
    let question = QUESTIONS.iter().find(|question| question.name == name).ok_or_else(|| unknown(name))?;
    let file = match question.asks_a_file {
        true => words.next().ok_or_else(|| format!("{name} needs a file. Usage: {USAGE}"))?,
        false => "",
    };
    if let Some(word) = words.next() {
        return Err(unknown(word));
    }
    if let Some((option, _)) = call.options.iter().find(|(option, _)| !question.options.contains(&&**option)) {
        return Err(format!("{name} has no option --{option}; what else it needs stands in its file. Usage: {USAGE}"));
    }
    let layout = Layout::from_json(&read_file(layout)?)?;
    let text = if question.asks_a_file { read_file(file)? } else { String::new() };
    let (table, met) = (question.answer)(&layout, &text, &call)?;
    let mut out = BufWriter::new(stdout().lock());
    print(&mut out, table.trim_end())?;
    out.flush().or_else(heard)?;
    Ok(met)
}

fn sensitivity(layout: &Layout, _: &str, call: &Call) -> Told {
    let (travel, rack) = (call.number("travel")?.unwrap_or_default(), call.number("rack")?.unwrap_or_default());
    let all = Sensitivity::at(layout, call.wheel()?, travel, rack).map_err(|why| why.to_string())?;
    Ok((all.table(layout), true))
}

fn repair(layout: &Layout, text: &str, _: &Call) -> Told {
    let found = Found::from_json(text, layout)?;
    let causes = Causes::of(&found, layout).map_err(|why| why.to_string())?;
    Ok((causes.table(layout), true))
}

/// So many axles can be drawn.
const MOST_DRAWN: f64 = 1e6;

fn spread(layout: &Layout, text: &str, call: &Call) -> Told {
    let asked = Asked::from_json(text, layout)?;
    let count = call.whole("count", 10_000.0, MOST_DRAWN)?;
    let seed = call.whole("seed", 1.0, 2.0_f64.powi(53))?;
    let spread = Spread::new(layout, call.wheel()?, &asked, seed as u64, |_| true);
    let mut spread = spread.map_err(|why| why.to_string())?;
    (0..count as usize).for_each(|_| spread.draw());
    if spread.failed > 0 {
        eprintln!(
            "{} of {count} axles can’t be assembled, or can’t be where they were asked for; they are left out.",
            spread.failed
        );
    }
    Ok((spread.table(), true))
}

fn goals(layout: &Layout, text: &str, _: &Call) -> Told {
    let goals = Goals::from_json(text, layout)?;
    let mut search = Search::new(layout, goals.clone()).map_err(|why| why.to_string())?;
    (0..search.starts()).for_each(|_| search.step());
    let best = search.answers().first().cloned().ok_or("No start led anywhere.")?;
    for (free, number) in goals.free.iter().zip(&best.numbers) {
        eprintln!("{} = {number}", free.parameter.name(layout));
    }
    for (i, (aim, values)) in goals.aims.iter().zip(&best.values).enumerate() {
        let met = if best.met[i] { "met" } else { "not met" };
        for (([travel, rack], _), value) in aim.places.iter().zip(values) {
            eprintln!("aim {i}: {} at travel {travel}, rack {rack} = {value}, {met}", aim.quantity.column());
        }
    }
    for (kept, is) in goals.lengths.iter().zip(&best.kept) {
        eprintln!("length {}: {}", kept.member.path(), if *is { "kept" } else { "not kept" });
    }
    for (condition, (values, is)) in
        goals.conditions.iter().zip(best.conditions.iter().zip(&best.kept[goals.lengths.len()..]))
    {
        let name = match condition.kept {
            Kept::Swing(joint) => format!("swing {}", joint.path(layout)),
            Kept::Gap(None) => "least gap".into(),
            Kept::Gap(Some(between)) => between.map(|piece| piece.name(layout)).join(" to ") + " gap",
        };
        for ([travel, rack], value) in condition.places.iter().zip(values) {
            eprintln!("{name} at travel {travel}, rack {rack} = {value}, {}", if *is { "kept" } else { "not kept" });
        }
    }
    if let Some([a, b]) = best.against {
        eprintln!("aims {a} and {b} pull against each other");
    }
    eprintln!("{} answers; sum of squares {}; {}", search.answers().len(), best.sum, stopped(best.stopped, best.steps));
    Ok((search.layout(&best).to_json(), best.all_met()))
}

fn fit(layout: &Layout, text: &str, _: &Call) -> Told {
    let measured = Measured::from_json(text, layout)?;
    let fitted: Fitted = measured.fit(layout).map_err(|why| why.to_string())?;
    for number in &fitted.numbers {
        let name = number.parameter.name(layout);
        let left = number.left.map_or("not determined".into(), |left| format!("±{left}"));
        let untouched = if number.is_untouched() { "; the readings say nothing about it" } else { "" };
        eprintln!("{name}: {} to {}, {left}{untouched}", number.measured, number.fitted);
    }
    for ((outcome, measured, error), left) in measured.values.iter().zip(&fitted.left) {
        eprintln!(
            "{} at travel {}, rack {}: {measured}, left {}",
            outcome.quantity.column(),
            outcome.travel,
            outcome.rack,
            left * error
        );
    }
    eprintln!("chi2 {}; {}", fitted.chi2, stopped(fitted.stopped, fitted.steps));
    Ok((fitted.layout.to_json(), true))
}

fn stopped(why: Stopped, steps: u32) -> String {
    let why = match why {
        Stopped::AtTheLeast => "at the least",
        Stopped::NoFurther => "no step lowers it further",
        Stopped::MostSteps => "the greatest number of steps",
    };
    format!("{why} after {steps} steps")
}

impl Call {
    fn option(&self, name: &str) -> Option<&str> {
        self.options.iter().find(|(option, _)| option == name).map(|(_, value)| &**value)
    }

    fn number(&self, name: &str) -> Result<Option<f64>, String> {
        self.option(name).map(read_number).transpose()
    }

    fn whole(&self, name: &str, default: f64, most: f64) -> Result<f64, String> {
        let number = self.number(name)?.unwrap_or(default);
        let is = number >= 0.0 && number.fract() == 0.0 && number <= most;
        is.then_some(number).ok_or_else(|| format!("--{name} must be a whole number up to {most}."))
    }

    fn wheel(&self) -> Result<LeftOrRight, String> {
        self.option("wheel").map(read_wheel).transpose().map(Option::unwrap_or_default)
    }
}

fn read_call() -> Result<Call, String> {
    let (mut call, mut given) = (Call::default(), Vec::new());
    for argument in std::env::args().skip(1) {
        once(&mut given, &argument)?;
        let option = argument.strip_prefix("--").and_then(|option| option.split_once('='));
        match option {
            Some((name, value)) => call.options.push((name.into(), value.into())),
            None if argument.starts_with('-') => return Err(format!("Unknown argument “{argument}”. Usage: {USAGE}")),
            None => call.words.push(argument),
        }
    }
    Ok(call)
}
