//! Parameters, outcomes and sensitivity, against derivatives by re-solving (`tests/reference/sensitivity_reference.py`, SciPy; computed, no published
//! source), and against steps of another size.

use kernel::vary::{Parameter, Quantity, STEP, Sensitivity};
use kernel::{Change, Layout, LeftOrRight, Sides};
use serde_json::Value;
use std::collections::BTreeMap;
use tests::{DEMOS, demo, example, near};

/// A named number of the witness, `None` for a reading that the axle does not have.
type Row = BTreeMap<String, Option<f64>>;

fn reference() -> Value {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/reference/sensitivity.json");
    serde_json::from_str(&std::fs::read_to_string(file).expect("the file")).expect("JSON")
}

fn texts(value: &Value) -> Vec<&str> {
    value.as_array().expect("a list").iter().filter_map(Value::as_str).collect()
}

/// The rows of the witness's table: parameter, unit, travel and rack where there are any, derivatives.
fn rows(columns: &Value, table: &Value) -> Vec<(String, String, Row)> {
    let columns = texts(columns);
    let row = |row: &Value| {
        let cells = row.as_array().expect("a row");
        let numbers = columns.iter().zip(cells).skip(2).map(|(name, cell)| (name.to_string(), cell.as_f64())).collect();
        (cells[0].as_str().expect("a name").into(), cells[1].as_str().expect("a unit").into(), numbers)
    };
    table.as_array().expect("a table").iter().map(row).collect()
}

/// What is computed of one parameter, by column.
fn computed(sensitivity: &Sensitivity, parameter: Parameter) -> Row {
    let (_, slopes) = sensitivity.rows.iter().find(|(other, _)| *other == parameter).expect("a row");
    Quantity::all().map(|quantity| quantity.column().to_string()).zip(slopes.iter().copied()).collect()
}

/// The derivatives agree with the witness to this part of their size, or this much where they are small: the witness's own nine digits.
const AGREES: f64 = 1e-7;

/// Every reading by every parameter of all kinds, on six axles at two positions.
#[test]
fn sensitivities_are_the_witness_s() {
    let reference = reference();
    let mut compared = 0;
    for (name, axle) in reference["axles"].as_object().expect("axles") {
        let layout = Layout::from_value(&axle["layout"]).expect("a layout");
        let rows_of = rows(&reference["columns"], &axle["rows"]);
        let mut known: BTreeMap<String, Sensitivity> = BTreeMap::new();
        for (parameter, unit, should) in &rows_of {
            let [travel, rack] = ["travel_mm", "rack_mm"].map(|held| should[held].expect("a number"));
            let at = known.entry(format!("{travel} {rack}")).or_insert_with(|| {
                Sensitivity::at(&layout, LeftOrRight::Left, travel, rack).unwrap_or_else(|why| panic!("{name}: {why}"))
            });
            let parameter = Parameter::named(parameter, &layout).unwrap_or_else(|| panic!("{name}: {parameter}"));
            assert_eq!(parameter.unit(), unit);
            let is = computed(at, parameter);
            for (column, should) in
                should.iter().filter(|(column, _)| !["travel_mm", "rack_mm"].contains(&column.as_str()))
            {
                let what = format!("{name} {} {column} at {travel} {rack}", parameter.name(&layout));
                match (is[column], should) {
                    (Some(is), Some(should)) => near(is, *should, AGREES * should.abs().max(1.0), &what),
                    (is, should) => assert_eq!(is, *should, "{what}"),
                }
                compared += 1;
            }
        }
        for (parameter, _, should) in rows(&reference["sweep_columns"], &axle["sweep_rows"]) {
            let parameter = Parameter::named(&parameter, &layout).expect("a parameter");
            for at in known.values() {
                let is = computed(at, parameter);
                for (column, should) in &should {
                    let what = format!("{name} {} {column}", parameter.name(&layout));
                    near(is[column].expect("a value"), should.expect("a value"), AGREES, &what);
                }
            }
        }
        let names: Vec<String> = Parameter::all(&layout).iter().map(|parameter| parameter.name(&layout)).collect();
        assert_eq!(2 * names.len(), rows_of.len(), "{name}: all parameters and no others");
    }
    assert!(compared > 15_000, "{compared}");
}

/// Half the step gives the same derivatives.
#[test]
fn half_the_step_changes_nothing() {
    for name in DEMOS {
        let layout = demo(name);
        let rack = if layout.rack.is_some() { 15.0 } else { 0.0 };
        let by = |step| Sensitivity::by_steps(&layout, LeftOrRight::Left, -20.0, rack, step).expect("an axle");
        let (whole, half) = (by(STEP), by(STEP.map(|step| step / 2.0)));
        for ((parameter, one), (_, other)) in whole.rows.iter().zip(&half.rows) {
            for ((quantity, one), other) in Quantity::all().zip(one).zip(other) {
                let what = format!("{name} {} {}", parameter.name(&layout), quantity.column());
                match (one, other) {
                    (Some(one), Some(other)) => near(*one, *other, AGREES * other.abs().max(1.0), &what),
                    (one, other) => assert_eq!(one, other, "{what}"),
                }
            }
        }
    }
}

/// Each parameter has a name and a value of its own; what is set is got, and the layout alone has changed by it.
#[test]
fn parameters_are_got_and_set() {
    for name in DEMOS {
        let layout = demo(name);
        for parameter in Parameter::all(&layout) {
            assert_eq!(Parameter::named(&parameter.name(&layout), &layout), Some(parameter));
            let before = parameter.get(&layout, Sides::Both).expect("a value");
            let moved = parameter.added(&layout, Sides::Both, 0.5);
            assert_eq!(parameter.get(&moved, Sides::Both), Some(before + 0.5));
            assert_ne!(moved, layout);
            let others = Parameter::all(&layout).into_iter().filter(|other| *other != parameter);
            for other in others {
                assert_eq!(other.get(&moved, Sides::Both), other.get(&layout, Sides::Both));
            }
            let mut back = moved;
            parameter.set(&mut back, Sides::Both, before);
            assert_eq!(back, layout);
        }
        assert_eq!(Parameter::named("wheel.width", &layout), None);
    }
}

/// The right wheel answers its own changes as the left one answers the left's, and a car-wide shift to the left the other way.
#[test]
fn the_right_wheel_answers_like_the_left_one() {
    let layout = demo("double-wishbone");
    let [left, right] = LeftOrRight::BOTH.map(|side| Sensitivity::at(&layout, side, 10.0, 5.0).expect("an axle"));
    for ((parameter, one), (_, other)) in left.rows.iter().zip(&right.rows) {
        let mirrored = matches!(parameter, Parameter::Change(Change::Subframe(1) | Change::SubframeYaw));
        for (one, other) in one.iter().zip(other) {
            let (one, other) = (one.unwrap_or_default(), other.unwrap_or_default());
            if mirrored {
                near(one, -other, 1e-8 * one.abs().max(1.0), &parameter.name(&layout));
            } else {
                assert_eq!(one, other);
            }
        }
    }
}

/// The command line: columns, rows, digits, the other wheel; bad calls end with exit code 1 and one sentence that names what is wrong.
#[test]
fn the_command_line_answers() {
    let strut = "demo-layouts/strut.json";
    let text = |arguments: &[&str]| {
        let output = example("vary", arguments);
        assert!(output.status.success() && output.stderr.is_empty(), "{arguments:?}");
        String::from_utf8(output.stdout).expect("text")
    };
    let table = text(&[strut, "sensitivity", "--travel=25", "--rack=20"]);
    let should = Sensitivity::at(&demo("strut"), LeftOrRight::Left, 25.0, 20.0).expect("an axle").table(&demo("strut"));
    assert_eq!(table, should);
    let rows: Vec<Vec<&str>> = table.lines().map(|line| line.split(',').collect()).collect();
    assert!(table.starts_with("parameter,unit,travel_mm,rack_mm,camber_deg,"));
    assert!(rows[0].ends_with(&["caster_sweep_deg", "kingpin_inclination_sweep_deg", "included_angle_sweep_deg"]));
    assert!(rows[1..].iter().all(|row| row[1..4].join(",").ends_with("25,20") && row.len() == rows[0].len()));
    assert_eq!(rows.len(), 1 + Parameter::all(&demo("strut")).len());
    assert_ne!(text(&[strut, "sensitivity", "--rack=20"]), text(&[strut, "sensitivity", "--rack=20", "--wheel=right"]));
    let found = format!("{}/found.json", env!("CARGO_TARGET_TMPDIR"));
    std::fs::write(&found, r#"{"values": [{"reading": "camber_deg", "value": -1.4, "error": 0.05}]}"#).expect("a file");
    assert!(
        text(&[strut, "repair", &found]).starts_with("rank,cause,side,amount,unit,chi2,indistinguishable_from\n1,")
    );
    for (arguments, says) in [
        (&[][..], "No layout file"),
        (&[strut], "No question"),
        (&[strut, "guess", "g.json"], "“guess”"),
        (&[strut, "goals", "g.json"], "g.json"),
        (&[strut, "goals", strut], "no file of goals"),
        (&[strut, "spread", &found], "it has an unknown entry “values”"),
        (&[strut, "spread", strut, "--wheel=front"], "no file of errors"),
        (&[strut, "sensitivity", "--travel=high"], "“high”"),
        (&[strut, "sensitivity", "--travel=900"], "900"),
        (&[strut, "sensitivity", "--wheel=front"], "“front”"),
        (&[strut, "sensitivity", "--rack=1", "--rack=2"], "--rack"),
        (&[strut, "repair"], "needs a file"),
        (&[strut, "repair", "nothing.json"], "nothing.json"),
        (&[strut, "repair", strut], "no file of readings"),
        (&[strut, "repair", &found, "--travel=3"], "no option --travel"),
        (&["README.md", "sensitivity"], "not a layout file"),
    ] {
        let output = example("vary", arguments);
        let said = String::from_utf8(output.stderr).expect("text");
        assert!(output.status.code() == Some(1) && output.stdout.is_empty(), "{said}");
        assert!(said.contains(says) && said.lines().count() == 1, "{arguments:?}: {said}");
    }
}
