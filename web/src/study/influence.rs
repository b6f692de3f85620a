//! The influence table: rows in words, columns of readings, and how large a number is beside the others of its column.

use crate::text::change::label;
use crate::text::number::{Units, signed};
use kernel::vary::{Parameter, Quantity};
use kernel::{Adjusted, Change, Layout, Linkage, PointId, Unit};

/// Which parameters stand in the rows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Members' lengths: joints stay on their parts, the wheel follows.
    Length,
    /// Joints that sit elsewhere on their parts, carrier, wheel and subframe: lengths stay, the wheel follows.
    Build,
    /// The design: the wheel stands at rest as before.
    Design,
    /// What this car can be adjusted with, by the turn, the shim or the mm.
    Adjuster,
}

/// A row of the table.
#[derive(Debug, PartialEq)]
pub struct Row {
    /// What moves.
    pub name: String,
    /// By how much: “mm”, “°”, “turn”, “shim”.
    pub per: &'static str,
    /// The joint that it is best seen at.
    pub joint: Option<PointId>,
    /// What each column's reading does.
    pub slopes: Vec<Option<f64>>,
}

/// A number less than this, in mm or degrees for a mm, a degree, a turn or a shim, is rounding: no part of a car moves anything so little.
const NOTHING: f64 = 1e-9;

/// The rows of a kind, in the order of the axle's parts, of the slopes of every quantity.
pub fn rows(
    linkage: &Linkage,
    layout: &Layout,
    slopes: &[(Parameter, Vec<Option<f64>>)],
    kind: Kind,
    columns: &[Quantity],
) -> Vec<Row> {
    let places: Vec<usize> = columns.iter().filter_map(|column| place(*column)).collect();
    let all = |parameter: Parameter| slopes.iter().find(|(other, _)| *other == parameter).map(|(_, slopes)| slopes);
    let of = |parameter: Parameter, factor: f64| -> Vec<Option<f64>> {
        let row = all(parameter);
        let slope = |at: &usize| row.and_then(|row| row[*at]).map(|slope| slope * factor);
        places.iter().map(|at| slope(at).map(|slope| if slope.abs() < NOTHING { 0.0 } else { slope })).collect()
    };
    if kind == Kind::Adjuster {
        let adjusters = layout.changes.adjusters.iter();
        let row = |adjuster: &kernel::Adjuster| {
            let (factor, per) = match (adjuster.pitch, adjuster.step) {
                (Some(pitch), _) => (pitch, "turn"),
                (_, Some(step)) => (step, "shim"),
                _ => (1.0, adjuster.unit()),
            };
            let slopes = match &adjuster.set {
                Adjusted::Change(change) => of(Parameter::Change(*change), factor),
                Adjusted::Along(id, along) => {
                    let parts =
                        [0, 1, 2].map(|axis| of(Parameter::Change(Change::Joint(*id, axis)), along[axis] * factor));
                    (0..places.len()).map(|i| Some(parts[0][i]? + parts[1][i]? + parts[2][i]?)).collect()
                }
            };
            Row { name: label(layout, adjuster), per, joint: adjusted_joint(linkage, &adjuster.set), slopes }
        };
        return adjusters.map(row).collect();
    }
    let fits = |parameter: &&(Parameter, Vec<Option<f64>>)| kind_of(parameter.0) == kind;
    let row = |(parameter, _): &(Parameter, Vec<Option<f64>>)| Row {
        name: match parameter {
            // That it is its length, the kind says.
            Parameter::Change(Change::Length(member)) => member.name(layout).into(),
            _ => parameter.label(layout),
        },
        per: if parameter.unit() == "deg" { "°" } else { "mm" },
        joint: joint(linkage, *parameter),
        slopes: of(*parameter, 1.0),
    };
    slopes.iter().filter(fits).map(row).collect()
}

fn kind_of(parameter: Parameter) -> Kind {
    match parameter {
        Parameter::Design(_) => Kind::Design,
        Parameter::Change(Change::Length(_) | Change::StrutLine(_)) => Kind::Length,
        Parameter::Change(_) => Kind::Build,
    }
}

/// Its place among all quantities.
fn place(quantity: Quantity) -> Option<usize> {
    Quantity::all().position(|other| other.column() == quantity.column())
}

/// The joint at which a parameter is best seen: of a member the outer one, of wheel and carrier the wheel centre.
fn joint(linkage: &Linkage, parameter: Parameter) -> Option<PointId> {
    match parameter {
        Parameter::Design(_) => parameter.point().or(Some(PointId::WheelCentre)),
        Parameter::Change(change) => adjusted_joint(linkage, &Adjusted::Change(change)),
    }
}

fn adjusted_joint(linkage: &Linkage, set: &Adjusted) -> Option<PointId> {
    match set {
        Adjusted::Along(id, _) | Adjusted::Change(Change::Joint(id, _)) => Some(*id),
        Adjusted::Change(Change::Length(member)) => {
            linkage.rows().iter().find(|row| row.member == *member).map(|row| row.joints[1])
        }
        Adjusted::Change(Change::StrutLine(_)) => Some(PointId::StrutTop),
        Adjusted::Change(Change::Subframe(_) | Change::SubframeYaw) => Some(PointId::LowerFrontInner),
        Adjusted::Change(_) => Some(PointId::WheelCentre),
    }
}

/// Where a number stands between 0 and the largest of its column: 0 for next to nothing, to 4.
pub fn shade(value: f64, largest: f64) -> usize {
    // Doubling from shade to shade: half of the largest and more is 4, a sixteenth and less 0.
    let part = if largest > 0.0 { value.abs() / largest } else { 0.0 };
    [1.0 / 16.0, 0.125, 0.25, 0.5].into_iter().filter(|least| part > *least).count()
}

/// The largest size in a column; 0 without any.
pub fn largest(rows: &[Row], column: usize) -> f64 {
    rows.iter().filter_map(|row| row.slopes[column]).fold(0.0, |most, slope| most.max(slope.abs()))
}

/// Sorts rows by the size of a column's numbers, the largest first.
pub fn sort(rows: &mut [Row], column: usize) {
    let size = |row: &Row| row.slopes[column].map_or(-1.0, f64::abs);
    rows.sort_by(|a, b| size(b).total_cmp(&size(a)));
}

/// How a column is shown: what it is called, its unit, and what its numbers are multiplied by. Lengths are in mm, as the parts' are.
pub fn heading(quantity: Quantity, units: Units) -> (String, &'static str, f64) {
    let units = Units { inches: false, total_toe: false, ..units };
    let reading = quantity.reading();
    let (_, factor, sign) = units.shown(reading);
    let unit = match (sign, units.behind(reading)) {
        ("", "") if reading.unit == Unit::Millimetre => "mm",
        ("", behind) => behind,
        (sign, _) => sign,
    };
    (reading.full_name(), unit, factor)
}

/// A quantity's value as the page shows readings.
pub fn told(quantity: Quantity, units: Units, value: f64) -> String {
    units.reading(Some(value), quantity.reading())
}

/// A number of a column whose largest has this size: three digits of that one, and no more than say something.
pub fn digits(value: Option<f64>, largest: f64) -> String {
    let Some(value) = value else { return "–".into() };
    // Digits before the point; below 1, zeros behind it count against them.
    let before = if largest > 0.0 { largest.log10().floor() as i32 + 1 } else { 1 };
    signed(value, (3 - before).clamp(0, 5) as usize)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_the_digits_that_their_column_has() {
        assert_eq!(digits(Some(0.43772), 0.43772), "+0.438");
        assert_eq!(digits(Some(-0.0021), 0.43772), "\u{2212}0.002");
        assert_eq!(digits(Some(12.345), 123.0), "+12");
        assert_eq!(digits(Some(0.0), 0.0), "0.00");
        assert_eq!(digits(None, 1.0), "–");
    }

    #[test]
    fn shades_are_relative_to_the_column() {
        assert_eq!([0.0, 0.05, 0.1, 0.2, 0.4, 0.6, -1.0].map(|value| shade(value, 1.0)), [0, 0, 1, 2, 3, 4, 4]);
        assert_eq!(shade(0.0, 0.0), 0);
    }
}
