//! What a fit is asked and says, in words and rows: what is left over, how far joints moved, what the table says nothing about.

use crate::app::App;
use crate::document::Measured;
use crate::document::fitting::Value;
use crate::text::number::{Units, fixed, signed};
use crate::work::fit::{Answer, Number, Question};
use kernel::vary::{Design, Kind, Parameter, Quantity};
use kernel::{Layout, LeftOrRight, PointId};

/// What of a measured table may be left over, in errors (root of the mean square): twice as much says that the errors are told too small, or that
/// something else is off.
const FITS: f64 = 1.5;

/// So many errors off is marked: of a hundred readings five are.
const MARKED: f64 = 2.0;

/// A coordinate that moved by less is told with those that did not, mm.
const MOVED: f64 = 0.05;

/// So many coordinates that nothing is said about are named.
const NAMED: usize = 12;

/// What is asked, with the values of the table; or, in a sentence, why nothing can be.
pub fn question(app: &App) -> Result<(Question, Vec<Value>), String> {
    if app.document.sealed() {
        return Err("In this exercise you are to find it yourself.".into());
    }
    let table = app.document.papers.fitting();
    let values = table.values()?;
    let points = app.errors_of(Kind::Design);
    if points.is_empty() {
        return Err("No joint has a ± yet, so none may be elsewhere: give it under Points, or all joints here.".into());
    }
    let side = if table.right { LeftOrRight::Right } else { LeftOrRight::Left };
    // The table has the rack to the left; a right wheel seen as a left one has it the other way.
    let place = |[travel, rack]: [f64; 2]| [travel, if table.right { 0.0 - rack } else { rack }];
    let asked = values.iter().map(|value| (value.reading, place(value.place), value.value)).collect();
    let (layout, (_, distribution)) = (app.document.layout.clone(), app.errors_mean());
    Ok((Question { layout, side, distribution, points, values: asked }, values))
}

impl Number {
    fn parameter(&self, layout: &Layout) -> Option<Parameter> {
        Parameter::named(&self.name, layout)
    }

    fn label(&self, layout: &Layout) -> String {
        self.parameter(layout).map_or(self.name.clone(), |parameter| parameter.label(layout))
    }
}

/// How well it fits, in a sentence.
pub fn summary(answer: &Answer) -> String {
    let square = answer.left.iter().map(|left| left * left).sum::<f64>() / answer.left.len().max(1) as f64;
    let left = fixed(square.sqrt(), 1);
    let says = if square.sqrt() <= FITS {
        "as much as the errors let expect"
    } else {
        "more than the errors let expect: a height, a sign, a unit or an error may be other than told, or something not in the list of joints"
    };
    format!("Of {} readings {left} errors are left over (root of the mean square), {says}.", answer.left.len())
}

/// Every reading: where, as measured, as fitted, what is left, in the reading's unit; of more than two errors marked.
pub fn residuals(units: Units, values: &[Value], answer: &Answer) -> Vec<Vec<String>> {
    let units = Units { inches: false, total_toe: false, ..units };
    let row = |(value, left): (&Value, &f64)| {
        let quantity = Quantity::named(value.reading)?;
        let [measured, error] = value.value;
        let (decimals, factor, unit) = units.shown(quantity.reading());
        let mark = if left.abs() > MARKED { "!" } else { "" };
        let [travel, rack] = value.place;
        let rack = if rack == 0.0 { String::new() } else { format!(", rack {}", signed(rack, 1)) };
        Some(vec![
            format!("{}: {}, travel {}{rack}", value.at[0], quantity.reading().name, signed(travel, 1)),
            fixed(measured * factor, decimals) + unit,
            fixed((measured + left * error) * factor, decimals) + unit,
            format!("{mark}{}{unit}", signed(left * error * factor, decimals)),
            format!("{mark}{}", signed(*left, 1)),
        ])
    };
    values.iter().zip(&answer.left).filter_map(row).collect()
}

/// Every coordinate that moved, the furthest in parts of its ± first: as measured, its ±, how far it moved, its ± now (both two deviations).
pub fn moved(layout: &Layout, answer: &Answer) -> Vec<Vec<String>> {
    let far = |number: &&Number| number.deviation.is_none() || (number.fitted - number.measured).abs() >= MOVED;
    let part =
        |number: &Number| (number.fitted - number.measured).abs() / number.deviation.unwrap_or(f64::MIN_POSITIVE);
    let mut all: Vec<&Number> = answer.numbers.iter().filter(far).collect();
    all.sort_by(|a, b| part(b).total_cmp(&part(a)));
    let row = |number: &Number| {
        let by = number.fitted - number.measured;
        let decimals = if number.deviation.is_some() { 1 } else { 3 };
        let twice =
            |deviation: Option<f64>| deviation.map_or("–".into(), |deviation| fixed(2.0 * deviation, decimals));
        let mark = if number.deviation.is_some_and(|deviation| by.abs() > MARKED * deviation) { "!" } else { "" };
        vec![
            number.label(layout),
            fixed(number.measured, decimals),
            twice(number.deviation),
            format!("{mark}{}", signed(by, decimals)),
            twice(number.left),
        ]
    };
    all.into_iter().map(row).collect()
}

/// What the table says nothing about, in a sentence; coordinates of one joint together.
pub fn untouched(layout: &Layout, answer: &Answer) -> String {
    let mut joints: Vec<(String, Vec<&str>)> = Vec::new();
    for number in answer.numbers.iter().filter(|number| number.untouched) {
        let label = number.label(layout);
        let (joint, axis) = match number.parameter(layout) {
            Some(Parameter::Design(Design::Coordinate(id, axis))) => (id.name().to_string(), ["x", "y", "z"][axis]),
            _ => (label, ""),
        };
        match joints.iter_mut().find(|(known, _)| *known == joint) {
            Some((_, axes)) => axes.push(axis),
            None => joints.push((joint, vec![axis])),
        }
    }
    if joints.is_empty() {
        return "The table says something about every coordinate.".into();
    }
    let name = |(joint, axes): &(String, Vec<&str>)| format!("{joint} {}", axes.join(", ")).trim_end().to_string();
    let mut names: Vec<String> = joints.iter().take(NAMED).map(name).collect();
    if joints.len() > NAMED {
        names.push(format!("{} more", joints.len() - NAMED));
    }
    format!("The table says nothing about these, which stay as uncertain as they were measured: {}.", names.join("; "))
}

/// What is taken into the axle: joints with their corrected coordinates, and camber and toe at rest, degrees.
pub fn taken(layout: &Layout, answer: &Answer) -> (Vec<Measured>, [f64; 2]) {
    let (mut rows, mut wheel): (Vec<Measured>, _) = (Vec::new(), [layout.wheel.camber, layout.wheel.toe]);
    for number in &answer.numbers {
        match number.parameter(layout) {
            Some(Parameter::Design(Design::Coordinate(id, axis))) => put(&mut rows, id, axis, number.fitted),
            Some(Parameter::Design(Design::Camber)) => wheel[0] = number.fitted,
            Some(Parameter::Design(Design::Toe)) => wheel[1] = number.fitted,
            _ => {}
        }
    }
    (rows, wheel)
}

fn put(rows: &mut Vec<Measured>, id: PointId, axis: usize, value: f64) {
    let at = rows.iter().position(|row| row.point == id).unwrap_or_else(|| {
        rows.push(Measured::nothing(id));
        rows.len() - 1
    });
    rows[at] = rows[at].with(axis, Some(value));
}
