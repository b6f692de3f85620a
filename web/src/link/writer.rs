//! Writes the parameters of a link, one after another.

use super::parameter::Parameter;
use crate::text::number::plain;
use kernel::Vec3;
use kernel::field::{self, Field};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use std::collections::BTreeMap;

/// Everything but the unreserved characters of RFC 3986 is written as %XX; and the underscore, which stands for a space.
const RESERVED: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'~');

/// The same where the underscore joins.
const JOINED: &AsciiSet = &RESERVED.remove(b'_');

/// The parameters written so far.
pub struct Writer {
    /// Names and values.
    pairs: Vec<(String, String)>,
    /// What absent ones mean, by name: those are left out.
    absent: BTreeMap<String, String>,
    /// The link's version.
    pub version: u32,
    /// What the names of those being written begin with.
    prefix: String,
}

impl Writer {
    /// Nothing written yet, in this version.
    pub fn new(version: u32) -> Writer {
        let (pairs, absent, prefix) = Default::default();
        Writer { pairs, absent, version, prefix }
    }

    /// Says what absent parameters mean, of those whose names are being written; of two sayings the last counts.
    pub fn assume(&mut self, table: &[(&str, &str)]) {
        let said = table.iter().map(|(name, value)| (format!("{}{name}", self.prefix), value.to_string()));
        self.absent.extend(said);
    }

    /// Writes a parameter, if links of this version have it and its absence would not say the same.
    pub fn put(&mut self, Parameter { name, since }: Parameter, value: impl AsRef<str>) {
        let (key, value) = (format!("{}{name}", self.prefix), value.as_ref());
        let known = since.is_none_or(|since| since <= self.version);
        if known && self.absent.get(&key).is_none_or(|absent| absent != value) {
            self.pairs.push((key, value.into()));
        }
    }

    /// Writes a parameter if there is something to write.
    pub fn put_if(&mut self, parameter: Parameter, value: Option<String>) {
        if let Some(value) = value {
            self.put(parameter, value);
        }
    }

    /// Writes numbers.
    pub fn numbers(&mut self, parameter: Parameter, values: &[f64]) {
        self.put(parameter, numbers(values));
    }

    /// Writes a part that is nothing but the numbers of its table, if there is one.
    pub fn part<P>(&mut self, parameter: Parameter, part: Option<&P>, fields: &[Field<P>]) {
        self.put_if(parameter, part.map(|part| numbers(&field::values(part, fields))));
    }

    /// Writes text.
    pub fn text(&mut self, parameter: Parameter, value: &str) {
        self.put(parameter, utf8_percent_encode(value, RESERVED).to_string().replace("%20", "_"));
    }

    /// Writes text whose underscores join its parts.
    pub fn joined(&mut self, parameter: Parameter, value: &str) {
        self.put(parameter, utf8_percent_encode(value, JOINED).to_string());
    }

    /// Writes text unless it is empty.
    pub fn text_if(&mut self, parameter: Parameter, value: &str) {
        if !value.is_empty() {
            self.text(parameter, value);
        }
    }

    /// Writes 1 for what is so, and nothing for what is not.
    pub fn flag(&mut self, parameter: Parameter, so: bool) {
        self.put_if(parameter, so.then(|| "1".into()));
    }

    /// Writes parameters whose names begin with `prefix`.
    pub fn within(&mut self, prefix: &str, write: impl FnOnce(&mut Writer)) {
        let outside = self.prefix.len();
        self.prefix.push_str(prefix);
        write(self);
        self.prefix.truncate(outside);
    }

    /// Names and values of all of them.
    pub fn pairs(self) -> Vec<(String, String)> {
        self.pairs
    }

    /// All of them, without `#` or `?`.
    pub fn finish(self) -> String {
        self.pairs.iter().map(|(name, value)| format!("{name}={value}")).collect::<Vec<_>>().join("&")
    }
}

/// Numbers, joined by `_`.
pub fn numbers(values: &[f64]) -> String {
    values.iter().map(|value| plain(*value)).collect::<Vec<_>>().join("_")
}

/// The coordinates of points, joined by `_`.
pub fn points(points: &[Vec3]) -> String {
    numbers(&points.iter().flat_map(|point| point.iter().copied()).collect::<Vec<_>>())
}
