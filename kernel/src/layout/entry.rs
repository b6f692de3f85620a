//! An object of a layout file, read by hand, so that every sentence names the part it is about.

use super::field::Field;
use super::{Rod, clip};
use crate::frame::Vec3;
use serde_json::{Map, Value};

/// What is wrong, to end a sentence with.
pub(crate) type Read<T> = Result<T, String>;

/// An object of the file and where it stands in it.
pub(crate) struct Entry<'a> {
    path: String,
    pub(super) fields: &'a Map<String, Value>,
}

impl<'a> Entry<'a> {
    /// The object at a path, which has no other fields than these.
    #[cold]
    pub(crate) fn new(path: &str, value: &'a Value, known: &[&str]) -> Read<Entry<'a>> {
        let fields = value.as_object().ok_or_else(|| format!("“{path}” must be an object {{ … }}"))?;
        if let Some(other) = fields.keys().find(|key| !known.contains(&key.as_str())) {
            let place = if path.is_empty() { "it".into() } else { format!("“{path}”") };
            return Err(format!("{place} has an unknown entry “{}”", clip(other)));
        }
        Ok(Entry { path: path.into(), fields })
    }

    #[cold]
    pub(crate) fn path(&self, key: &str) -> String {
        if self.path.is_empty() { key.into() } else { format!("{}.{key}", self.path) }
    }

    pub(crate) fn find(&self, key: &str) -> Option<&'a Value> {
        self.fields.get(key).filter(|value| !value.is_null())
    }

    #[cold]
    pub(crate) fn need(&self, key: &str) -> Read<&'a Value> {
        self.find(key).ok_or_else(|| format!("“{}” is missing", self.path(key)))
    }

    #[cold]
    pub(crate) fn number(&self, key: &str) -> Read<f64> {
        self.need(key)?.as_f64().ok_or_else(|| format!("“{}” must be a number", self.path(key)))
    }

    pub(super) fn number_if(&self, key: &str) -> Read<Option<f64>> {
        self.find(key).map(|_| self.number(key)).transpose()
    }

    pub(crate) fn number_or(&self, key: &str, default: f64) -> Read<f64> {
        if self.find(key).is_some() { self.number(key) } else { Ok(default) }
    }

    /// A part's numbers, each the default's where the file has none.
    pub(super) fn fields<P>(&self, mut part: P, fields: &[Field<P>]) -> Read<P> {
        for field in fields {
            if self.find(field.key).is_some() {
                (field.set)(&mut part, self.number(field.key)?);
            }
        }
        Ok(part)
    }

    #[cold]
    pub(crate) fn text(&self, key: &str) -> Read<&'a str> {
        self.need(key)?.as_str().ok_or_else(|| format!("“{}” must be text in quotes", self.path(key)))
    }

    /// One of a few words.
    pub(crate) fn word<T: Copy>(&self, key: &str, words: &[(T, &str)]) -> Read<T> {
        let text = self.text(key)?;
        words.iter().find(|(_, word)| *word == text).map(|(meaning, _)| *meaning).ok_or_else(|| {
            let words: Vec<&str> = words.iter().map(|(_, word)| *word).collect();
            format!("“{}” must be one of: {}", self.path(key), words.join(", "))
        })
    }

    /// One of a few words, or the default.
    pub(crate) fn word_or<T: Copy + Default>(&self, key: &str, words: &[(T, &str)]) -> Read<T> {
        if self.find(key).is_some() { self.word(key, words) } else { Ok(T::default()) }
    }

    #[cold]
    pub(super) fn list(&self, key: &str) -> Read<&'a Vec<Value>> {
        self.need(key)?.as_array().ok_or_else(|| format!("“{}” must be a list [ … ]", self.path(key)))
    }

    #[cold]
    pub(super) fn point(&self, key: &str) -> Read<Vec3> {
        let numbers = self.need(key)?.as_array().filter(|items| items.len() == 3);
        let numbers: Option<Vec<f64>> = numbers.and_then(|items| items.iter().map(Value::as_f64).collect());
        numbers
            .map(Vec3::from_vec)
            .ok_or_else(|| format!("“{}” must be three numbers in brackets [x, y, z]", self.path(key)))
    }

    /// A list of points.
    pub(super) fn points(&self, key: &str) -> Read<Vec<Vec3>> {
        let point = |value: &Value| serde_json::from_value::<[f64; 3]>(value.clone()).ok().map(Vec3::from);
        let points: Option<Vec<Vec3>> = self.list(key)?.iter().map(point).collect();
        points.ok_or_else(|| format!("“{}” must be a list of points, each three numbers [x, y, z]", self.path(key)))
    }

    pub(super) fn flag_if(&self, key: &str) -> Read<Option<bool>> {
        let flag = |value: &Value| value.as_bool().ok_or_else(|| format!("“{}” must be true or false", self.path(key)));
        self.find(key).map(flag).transpose()
    }

    pub(super) fn point_if(&self, key: &str) -> Read<Option<Vec3>> {
        self.find(key).map(|_| self.point(key)).transpose()
    }

    pub(super) fn rod(&self, key: &str) -> Read<Rod> {
        let part = Entry::new(&self.path(key), self.need(key)?, &["inner", "outer"])?;
        Ok(Rod { inner: part.point("inner")?, outer: part.point("outer")? })
    }

    /// The file itself.
    pub(super) fn file(fields: &'a Map<String, Value>) -> Entry<'a> {
        Entry { path: String::new(), fields }
    }

    /// An optional object, read by `read`.
    pub(super) fn part_if<T>(&self, key: &str, known: &[&str], read: fn(&Entry) -> Read<T>) -> Read<Option<T>> {
        self.find(key).map(|value| read(&Entry::new(&self.path(key), value, known)?)).transpose()
    }
}
