//! Writes the parameters of a link, one after another.

use super::parameter::Parameter;
use crate::text::number::plain;
use kernel::Vec3;
use kernel::field::{self, Field};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};

/// Everything but the unreserved characters of RFC 3986 is written as %XX; and the underscore, which stands for a space.
const RESERVED: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'~');

/// The parameters written so far.
#[derive(Default)]
pub struct Writer {
    pairs: Vec<String>,
    /// What the names of those being written begin with.
    prefix: String,
}

impl Writer {
    /// Writes a parameter.
    pub fn put(&mut self, Parameter { name, .. }: Parameter, value: impl AsRef<str>) {
        self.pairs.push(format!("{}{name}={}", self.prefix, value.as_ref()));
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

    /// All of them, without `#` or `?`.
    pub fn finish(self) -> String {
        self.pairs.join("&")
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
