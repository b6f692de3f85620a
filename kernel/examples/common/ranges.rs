//! Ranges of numbers on a command line.

use super::common::read_number;
use kernel::range;

/// `A..B/STEP`, both ends included where the step meets them, or one number.
pub fn read_range(text: &str) -> Result<Vec<f64>, String> {
    let Some((from, rest)) = text.split_once("..") else { return Ok(vec![read_number(text)?]) };
    let (to, step) = rest.split_once('/').ok_or_else(|| format!("The range “{text}” has no /STEP."))?;
    range(read_number(from)?, read_number(to)?, read_number(step)?).map_err(|why| format!("The range “{text}” {why}."))
}
