//! What the examples' command lines share: files, numbers, lines out.

use kernel::{Layout, LeftOrRight};
use std::fs::File;
use std::io::{ErrorKind, Read, Write};
use std::process::ExitCode;

/// Exit code 1, with the sentence on standard error, where a run failed.
pub fn ended(run: Result<(), String>) -> ExitCode {
    match run {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::FAILURE
        }
    }
}

/// Prints a line; `false` once nobody reads any more, which is no error.
pub fn print(out: &mut impl Write, line: &str) -> Result<bool, String> {
    writeln!(out, "{line}").map(|()| true).or_else(|e| heard(e).map(|()| false))
}

/// No error where nobody reads any more.
pub fn heard(error: std::io::Error) -> Result<(), String> {
    if error.kind() == ErrorKind::BrokenPipe { Ok(()) } else { Err(format!("The table can’t be written: {error}.")) }
}

/// The file's text; of an endless one, as much as tells that it is too long.
pub fn read_file(name: &str) -> Result<String, String> {
    let mut text = String::new();
    let most = Layout::MAX_FILE as u64 + 1;
    let read = File::open(name).and_then(|file| file.take(most).read_to_string(&mut text));
    match read {
        Ok(bytes) if bytes as u64 == most => {
            Err(format!("{name} is longer than any file that is read, {} kB.", Layout::MAX_FILE / 1000))
        }
        Ok(_) => Ok(text),
        Err(error) => Err(format!("{name} can’t be read: {error}.")),
    }
}

/// A number that can be reckoned with.
pub fn read_number(text: &str) -> Result<f64, String> {
    let value: f64 = text.trim().parse().map_err(|_| format!("“{text}” is not a number."))?;
    value.is_finite().then_some(value).ok_or_else(|| format!("“{text}” is not a number that can be used."))
}

/// “left” or “right”.
pub fn read_wheel(name: &str) -> Result<LeftOrRight, String> {
    let side = LeftOrRight::BOTH.into_iter().find(|side| side.name() == name);
    side.ok_or_else(|| format!("--wheel is left or right, not “{name}”."))
}

/// An error for an option that is given twice; the arguments so far are in `given`.
pub fn once(given: &mut Vec<String>, argument: &str) -> Result<(), String> {
    let name = argument.split('=').next().unwrap_or_default().to_string();
    if name.starts_with("--") && given.contains(&name) {
        return Err(format!("{name} is given twice."));
    }
    given.push(name);
    Ok(())
}
