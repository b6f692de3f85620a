//! Tables for a spreadsheet, joints for CAD.

use super::{as_built, block};
use crate::app::App;
use crate::study::Solved;
use kernel::{Demand, Layout, PointId, Snapshot, Subject, Table, Vec3};

/// The table of the states along travel, at the present rack and without roll: the same columns as on the command line, with those of the whole
/// axle where it is shown, of a rig's sweep, of what gives way and of gaps; behind them those of the axle laid over, at the same travels, each name
/// with `_compared` behind it. What a lesson hides is a `?`.
pub fn curves_csv(app: &App) -> String {
    let own = rows(app, &app.study.good);
    let Some(other) = app.study.compared.as_ref().map(|compared| rows(app, compared)) else {
        return own.iter().map(|row| row.join(",") + "\n").collect();
    };
    // Both have the same travels.
    let beside: Vec<usize> =
        other.first().map_or(Vec::new(), |heads| (0..heads.len()).filter(|at| heads[*at] != "travel_mm").collect());
    let cells = |at: usize, row: &[String]| match (at, other.iter().find(|other| other.first() == row.first())) {
        (0, Some(heads)) => beside.iter().map(|at| heads[*at].clone() + "_compared").collect(),
        (_, Some(other)) => beside.iter().map(|at| other[*at].clone()).collect(),
        (_, None) => vec![String::new(); beside.len()],
    };
    let line = |(at, row): (usize, &Vec<String>)| [row.clone(), cells(at, row)].concat().join(",") + "\n";
    own.iter().enumerate().map(line).collect()
}

/// Heads and rows of one axle.
fn rows(app: &App, good: &Solved) -> Vec<Vec<String>> {
    let axle = good.whole.is_some().then_some(Subject::Axle);
    let of: Vec<Subject> =
        [Subject::Wheel].into_iter().chain(axle).chain([Subject::Rig, Subject::Elastic, Subject::Space]).collect();
    let table = Table { linkage: good.linkage(), load: None, of: &of };
    let header = table.header();
    let hidden: Vec<bool> = header.split(',').map(|column| app.hides(column)).collect();
    let mut rows = vec![header.split(',').map(String::from).collect::<Vec<_>>()];
    let curve = good.over_travel();
    for ((travel, state), known) in curve.points.iter().zip(&curve.known) {
        let snapshot = Snapshot::level(&good.axle, state).knowing(known);
        // Without a force no position is refused.
        if let Ok(row) = table.row(&Demand::new(*travel, state.position.rack), &snapshot) {
            let told = row.split(',').zip(&hidden).map(|(cell, hidden)| if *hidden { "?" } else { cell });
            rows.push(told.map(String::from).collect());
        }
    }
    rows
}

/// Digits that are kept for a spreadsheet: more than any of the readings is good for.
const DIGITS: usize = 8;

/// Less than this is what rounding left of 0.
const NOTHING: f64 = 1e-12;

/// A table as a spreadsheet reads it: numbers of eight digits, and where it has a decimal comma, columns apart by semicolons.
pub fn for_spreadsheet(csv: &str, comma: bool) -> String {
    let cell = |cell: &str| {
        let short = cell.parse().map(|value: f64| match value.abs() < NOTHING {
            true => 0.0,
            false => format!("{value:.*e}", DIGITS - 1).parse::<f64>().unwrap_or(value),
        });
        short.map_or(
            cell.to_string(),
            |short| if comma { short.to_string().replace('.', ",") } else { short.to_string() },
        )
    };
    let line = |line: &str| {
        let mut quoted = false;
        let cells = line.split(|letter: char| {
            quoted ^= letter == '"';
            letter == ',' && !quoted
        });
        cells.map(cell).collect::<Vec<_>>().join(if comma { ";" } else { "," }) + "\n"
    };
    csv.lines().map(line).collect()
}

/// The points at rest: name, x, y, z, mm.
pub fn points_csv(layout: &Layout) -> String {
    let rows = block::write(layout);
    let row = |line: &str| {
        let (name, numbers) = line.split_once('\t').unwrap_or((line, ""));
        format!("\"{name}\",{}\n", numbers.replace('\t', ","))
    };
    "point,x_mm,y_mm,z_mm\n".to_string() + &rows.lines().map(row).collect::<String>()
}

/// The joints at rest as DXF in its R12 text form, the oldest that every CAD program reads: points and members as lines, mm,
/// on layers named after their part; of an axle as it is built those of the wheel shown, as a left one, and a comment (group code 999) says so. Written by hand: a library that does it is larger than this page.
pub fn dxf(app: &App) -> String {
    use PointId::*;
    let layout = &app.document.layout;
    let (good, built) = (&app.study.good, app.study.trouble.is_none() && !layout.changes.is_empty());
    let rest = good.linkage().rest();
    let at_rest = |id: PointId, drawn: Vec3| good.linkage().place(&rest, 0.0, id, drawn);
    let joint = |id: PointId| match built {
        true => good.layout().point(id).map(|drawn| at_rest(id, drawn)),
        false => layout.point(id),
    };
    let mut text = format!("999\n{}\n0\nSECTION\n2\nENTITIES\n", as_built::as_built(app));
    let place = |codes: [u8; 3], p: Vec3| {
        codes.iter().zip(p.iter()).map(|(code, mm)| format!("{code}\n{mm:.4}\n")).collect::<String>()
    };
    for (id, p) in layout.points().filter_map(|(id, _)| Some((id, joint(id)?))) {
        text += &format!("0\nPOINT\n8\n{}\n{}", layer(id.name()), place([10, 20, 30], p));
    }
    let lower = [
        [LowerFrontInner, LowerFrontOuter],
        [LowerRearInner, LowerRearOuter],
        [LowerFrontInner, LowerOuter],
        [LowerRearInner, LowerOuter],
    ];
    let upper = [
        [UpperFrontInner, UpperFrontOuter],
        [UpperRearInner, UpperRearOuter],
        [UpperFrontInner, UpperOuter],
        [UpperRearInner, UpperOuter],
    ];
    let others = [
        [StrutTop, StrutFoot],
        [TrackRodInner, TrackRodOuter],
        [SpringTop, SpringFoot],
        [ShaftInner, ShaftOuter],
        [BarPivot, BarLever],
        [BarLever, BarLink],
    ];
    for [a, b] in lower.into_iter().chain(upper).chain(others) {
        if let (Some(from), Some(to)) = (joint(a), joint(b)) {
            text +=
                &format!("0\nLINE\n8\n{}\n{}{}", layer(a.name()), place([10, 20, 30], from), place([11, 21, 31], to));
        }
    }
    text + "0\nENDSEC\n0\nEOF\n"
}

/// A layer's name: letters, digits and underscores.
fn layer(name: &str) -> String {
    let part = name.split(',').next().unwrap_or(name);
    part.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_uppercase() } else { '_' }).collect()
}
