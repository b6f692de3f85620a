//! Reads the parameters of a link, one after another, and says what is wrong with each.

use super::parameter::{Parameter, VERSION};
use kernel::field::{self, Field};
use kernel::{LIMIT, clean, clean_lines, clip};
use percent_encoding::percent_decode_str;
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// Numbers other than coordinates may be as large as this; whether a part bears them is said when it is validated.
pub const MOST: f64 = 1e6;

/// Says from version 3 that an axle does not have an optional part of its demo.
pub const NONE: &str = "none";

/// The parameters not yet read, and the faults found so far.
pub struct Reader {
    /// As they stand in the link, by their decoded names.
    pairs: BTreeMap<String, String>,
    /// What absent ones mean, by the same names.
    absent: BTreeMap<String, String>,
    /// A sentence a fault.
    pub faults: Vec<String>,
    /// Parameters asked for in vain.
    missing: Vec<String>,
    /// The link's version.
    pub version: u32,
    /// What the names of those being read begin with.
    prefix: String,
}

impl Reader {
    /// Splits a link; the first of two parameters of one name counts.
    pub fn new(parameters: &str) -> Reader {
        let (mut pairs, mut faults) = (BTreeMap::new(), Vec::new());
        for part in parameters.split('&').filter(|part| !part.is_empty()) {
            let (key, value) = part.split_once('=').unwrap_or((part, ""));
            match pairs.entry(decode(key)) {
                Entry::Vacant(place) => {
                    place.insert(value.into());
                }
                Entry::Occupied(place) => {
                    faults.push(format!("The link says “{}” twice; the first is used.", clip(place.key())));
                }
            }
        }
        let (absent, missing, prefix) = Default::default();
        Reader { pairs, absent, faults, missing, version: VERSION, prefix }
    }

    /// Says what is missing, and that whatever was not asked for is not known.
    pub fn finish(mut self) -> Vec<String> {
        if self.lacks() {
            let missing = self.missing.join(", ");
            self.faults.push(format!(
                "The link may have been cut off: {missing} {} missing and replaced by the demo’s values.",
                if self.missing.len() == 1 { "is" } else { "are" }
            ));
        }
        let unknown = self.pairs.keys();
        let said = unknown.map(|key| format!("The link’s parameter “{}” is unknown and was ignored.", clip(key)));
        self.faults.extend(said);
        self.faults
    }

    /// True if a parameter has been asked for in vain.
    pub fn lacks(&self) -> bool {
        !self.missing.is_empty()
    }

    /// Says what absent parameters mean, of those whose names are being read; of two sayings the last counts.
    pub fn assume(&mut self, table: &[(&str, &str)]) {
        let said = table.iter().map(|(name, value)| (format!("{}{name}", self.prefix), value.to_string()));
        self.absent.extend(said);
    }

    /// Reads parameters whose names begin with `prefix`.
    pub fn within<T>(&mut self, prefix: &str, read: impl FnOnce(&mut Reader) -> T) -> T {
        let outside = self.prefix.len();
        self.prefix.push_str(prefix);
        let read = read(self);
        self.prefix.truncate(outside);
        read
    }

    /// What a link calls a parameter of what is being read.
    pub fn key(&self, parameter: Parameter) -> String {
        format!("{}{}", self.prefix, parameter.name)
    }

    /// True if the link has a parameter that has not been read yet.
    pub fn has(&self, parameter: Parameter) -> bool {
        self.pairs.contains_key(&self.key(parameter))
    }

    /// True if it has one whose name begins with `prefix`.
    pub fn has_any(&self, prefix: &str) -> bool {
        let prefix = format!("{}{prefix}", self.prefix);
        self.pairs.keys().any(|key| key.starts_with(&prefix))
    }

    /// Takes a parameter as it stands in the link, or what its absence means, or notes that it is missing if a link of this version has it.
    fn raw(&mut self, parameter: Parameter) -> Option<String> {
        let key = self.key(parameter);
        let value = self.pairs.remove(&key).or_else(|| self.absent.get(&key).cloned());
        if value.is_none() && parameter.since.is_some_and(|since| since <= self.version) {
            self.missing.push(format!("“{key}”"));
        }
        value
    }

    /// Takes a parameter, or notes that it is missing if a link of this version has it.
    pub fn take(&mut self, parameter: Parameter) -> Option<String> {
        let none = self.version >= 3 && parameter.since.is_none();
        self.raw(parameter).map(|value| decode(&value)).filter(|value| !(none && value == NONE))
    }

    /// Takes text, cut to a length. From version 2, `_` is a space in it.
    pub fn text(&mut self, parameter: Parameter, longest: usize) -> Option<String> {
        self.words(parameter, longest, clean)
    }

    /// Takes text of several lines in the same way.
    pub fn lines(&mut self, parameter: Parameter, longest: usize) -> Option<String> {
        self.words(parameter, longest, clean_lines)
    }

    fn words(&mut self, parameter: Parameter, longest: usize, clean: fn(&str) -> String) -> Option<String> {
        let value = self.raw(parameter)?;
        let text = clean(&decode(&if self.version < 2 { value } else { value.replace('_', " ") }));
        let length = text.chars().count();
        if length > longest {
            let name = parameter.name;
            self.faults.push(format!("The link’s “{name}” has {length} characters and is cut to {longest}."));
        }
        Some(text.chars().take(longest).collect())
    }

    /// Takes a flag: 1 is yes, 0 or nothing no.
    pub fn flag(&mut self, parameter: Parameter) -> bool {
        let text = self.take(parameter).unwrap_or_default();
        if !["", "0", "1"].contains(&text.as_str()) {
            self.wrong(parameter, &text, "0 or 1");
        }
        text == "1"
    }

    /// Takes `N` numbers joined by `_`, each within ±[`LIMIT`].
    pub fn numbers<const N: usize>(&mut self, parameter: Parameter) -> Option<[f64; N]> {
        let text = self.take(parameter)?;
        self.parse(parameter, &text, LIMIT)
    }

    /// Takes a part that is nothing but the numbers of its table, each within ±`most`.
    pub fn part<P: Default>(&mut self, parameter: Parameter, fields: &[Field<P>], most: f64) -> Option<P> {
        let text = self.take(parameter)?;
        self.list(parameter, &text, fields.len(), most).map(|values| field::with(P::default(), fields, &values))
    }

    /// `N` numbers joined by `_`, each within ±`most`, in a parameter that has been taken.
    pub fn parse<const N: usize>(&mut self, parameter: Parameter, text: &str, most: f64) -> Option<[f64; N]> {
        self.list(parameter, text, N, most)?.try_into().ok()
    }

    /// The same, for as many numbers as a table has.
    pub fn list(&mut self, parameter: Parameter, text: &str, count: usize, most: f64) -> Option<Vec<f64>> {
        let number = |part: &str| part.parse().ok().filter(|value: &f64| value.abs() <= most);
        let values: Option<Vec<f64>> = text.split('_').map(number).collect();
        let values = values.filter(|values| values.len() == count);
        if values.is_none() {
            self.wrong(parameter, text, &format!("{count} numbers within ±{most} joined by _"));
        }
        values
    }

    /// Says that a parameter is not what it should be, and what becomes of it.
    pub fn wrong(&mut self, parameter: Parameter, value: &str, wanted: &str) {
        let left_out = parameter.since.is_none();
        let then = if left_out { "it is left out" } else { "the demo’s value is used instead" };
        let key = self.key(parameter);
        self.faults.push(format!("The link’s “{key}” is “{}”, not {wanted}; {then}.", clip(value)));
    }
}

/// Percent-decoded text; bytes that are no text become the replacement character. `+` stands for a space in some programs.
fn decode(text: &str) -> String {
    percent_decode_str(&text.replace('+', " ")).decode_utf8_lossy().into_owned()
}
