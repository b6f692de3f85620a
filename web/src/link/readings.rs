//! Readings in a link: the columns of the table without their unit, joined by `.`.

use super::parameter::Parameter;
use super::reader::Reader;
use kernel::{Reading, clip};

/// More of them than this are not read.
const MOST: usize = 20;

/// What a link calls a reading.
pub fn short(column: &str) -> &'static str {
    Reading::named(column).map_or("", Reading::short)
}

/// What a link calls readings.
pub fn write(columns: &[&str]) -> String {
    columns.iter().map(|column| short(column)).collect::<Vec<_>>().join(".")
}

/// Takes a parameter that names readings.
pub fn read(link: &mut Reader, parameter: Parameter) -> Vec<&'static str> {
    let text = link.take(parameter).unwrap_or_default();
    let mut columns = Vec::new();
    for name in text.split('.').filter(|name| !name.is_empty()).take(MOST) {
        match Reading::named(name) {
            Some(reading) if !columns.contains(&reading.column) => columns.push(reading.column),
            Some(_) => {}
            None => {
                let (key, name) = (parameter.name, clip(name));
                link.faults.push(format!("The link’s “{key}” names “{name}”, which is not a reading."));
            }
        }
    }
    columns
}
