//! JSON in which no object says a key twice: of two, the last would win without a word.

use super::clip;
use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::error::Category;
use serde_json::{Map, Number, Value};
use std::fmt;

/// The value that a text says; or what is wrong with it and where, to end a sentence with.
pub fn parse(text: &str) -> Result<Value, String> {
    serde_json::from_str(text).map(|Json(value)| value).map_err(|e| {
        let how = match e.classify() {
            Category::Eof => "the file ends too early".to_string(),
            // The reader's own words, without where it found them.
            Category::Data => e.to_string().split(" at line").next().unwrap_or_default().to_string(),
            _ => "it is not valid JSON".to_string(),
        };
        format!("{how} (line {}, column {})", e.line(), e.column())
    })
}

/// A value of such JSON.
struct Json(Value);

impl<'de> Deserialize<'de> for Json {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Json, D::Error> {
        deserializer.deserialize_any(Any).map(Json)
    }
}

struct Any;

impl<'de> Visitor<'de> for Any {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON")
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Value, E> {
        Ok(Number::from_f64(value).map_or(Value::Null, Value::Number))
    }

    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut all = Vec::new();
        while let Some(Json(item)) = items.next_element()? {
            all.push(item);
        }
        Ok(Value::Array(all))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut all = Map::new();
        while let Some((key, Json(item))) = items.next_entry::<String, Json>()? {
            if all.contains_key(&key) {
                return Err(A::Error::custom(format!("“{}” appears twice in the same object", clip(&key))));
            }
            all.insert(key, item);
        }
        Ok(Value::Object(all))
    }
}
