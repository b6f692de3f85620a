//! Spread in words.

use crate::plot;
use crate::study::influence::heading;
use crate::text::number::{Units, fixed};
use crate::work::spread::Line;
use kernel::vary::{Kind, Quantity};

/// How a reading is shown: its name with its unit, what its numbers are multiplied by, its decimals. Lengths are in mm, as ± are; toe is of one wheel.
pub(super) fn shown(units: Units, column: &str) -> Option<(String, f64, usize)> {
    let quantity = Quantity::named(column)?;
    let units = Units { inches: false, total_toe: false, ..units };
    let (name, unit, factor) = heading(quantity, units);
    Some((format!("{name}, {unit}").trim_end_matches(", ").into(), factor, units.shown(quantity.reading()).0))
}

/// A width: with two digits that say something, if it has fewer.
fn width(value: f64, decimals: usize) -> String {
    let before = if value > 0.0 { value.log10().floor() as i32 } else { 0 };
    fixed(value, decimals.max((1 - before).clamp(0, 6) as usize))
}

/// A row of the table.
pub(super) fn row(units: Units, line: &Line) -> Option<Vec<String>> {
    let (name, factor, decimals) = shown(units, &line.column)?;
    let [value, sigma, worst] = line.linear.map(|number| number * factor);
    let mut row = vec![name, fixed(value, decimals), width(2.0 * sigma, decimals), width(worst, decimals)];
    row.extend(match &line.sample {
        Some(sample) => {
            let [mean, sigma, low, _, high, ..] = sample.numbers.map(|number| number * factor);
            [fixed(mean, decimals), width(sigma, decimals), fixed(low, decimals), fixed(high, decimals)]
        }
        None => [(); 4].map(|()| "–".into()),
    });
    Some(row)
}

/// The histogram of a reading, if axles have been drawn.
pub(super) fn bars(units: Units, line: &Line) -> Option<String> {
    let (name, factor, decimals) = shown(units, &line.column)?;
    let sample = line.sample.as_ref().filter(|sample| sample.bars.iter().any(|bar| *bar > 0))?;
    let [_, _, low, _, high, least, most] = sample.numbers.map(|number| number * factor);
    let marks = [(low, "5 %"), (line.linear[0] * factor, "as given"), (high, "95 %")];
    let about =
        format!("{name}: how often each value came up, from {} to {}", fixed(least, decimals), fixed(most, decimals));
    Some(plot::bars(&sample.bars, [least, most], &marks, decimals, &about))
}

/// What a kind means.
pub(super) fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Design => {
            "Measured: each joint of the car may be off by its ±; the wheel stands as it was measured, and lengths follow."
        }
        Kind::Build => {
            "Built: each joint may be off by its ± on its part; lengths stay as designed, and camber and toe come out differently."
        }
    }
}

/// Where to give a ±, if there is none that counts.
pub(super) fn no_error(kind: Kind, none: bool) -> &'static str {
    match (none, kind) {
        (false, Kind::Build) => {
            "Only points that are no joints of built parts have a ±; give joints one under Points, or all of them here."
        }
        _ => {
            "No point has a ± yet: give it under Points (select a joint, then type its measuring tolerance), or all joints here."
        }
    }
}
