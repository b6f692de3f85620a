//! What gives way, against free bodies on springs: `reference/compliance_reference.py` moves carriers, wishbones, arms, subframe and rack of both sides
//! freely, bushes as springs, and solves their stiffness in NumPy; it shares no formula with the kernel. Grade: computed.

use kernel::{
    Bushes, Demand, Group, Layout, Position, READINGS, Snapshot, State, UNDER_LOAD, UnderLoad, Vec3, force_wrenches,
};
use serde_json::Value;
use tests::axle;

/// The script writes 12 significant digits, and nothing below 1e-12; both solve poses to 1e-11 mm.
const ACCURACY: f64 = 1e-9;

/// Caster under load is a difference over a small part of the deflection on both sides.
const CASTER: f64 = 1e-8;

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

#[test]
fn free_bodies_on_springs_give_way_alike() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/reference/compliance.json");
    let file: Value = serde_json::from_str(&std::fs::read_to_string(path).expect("the reference")).expect("JSON");
    let readings = || READINGS.iter().filter(|reading| reading.group == Group::Compliance);
    for (i, reading) in readings().enumerate() {
        assert_eq!(file["columns"][i], reading.column);
    }
    for (i, column) in UNDER_LOAD.iter().enumerate() {
        assert_eq!(file["loaded_columns"][i], column.column);
    }
    let force = Vec3::from_fn(|i, _| number(&file["force"][i]));
    let (mut read, mut loaded, mut wrong) = (0, 0, Vec::new());
    for (name, variants) in file["axles"].as_object().expect("axles") {
        for variant in variants.as_array().expect("a list") {
            let layout = Layout::from_value(&variant["layout"]).unwrap_or_else(|why| panic!("{name}: {why}"));
            let axle = axle(&layout);
            let bushes = Bushes::of(&axle).expect("it gives way");
            for at in variant["states"].as_array().expect("a list") {
                let (travel, rack) = (number(&at["travel_mm"]), number(&at["rack_mm"]));
                let [left, right] = [0, 1].map(|i| {
                    let linkage = &axle.linkages()[i];
                    let demand = Demand::new(travel, if i == 0 { rack } else { -rack });
                    State::solve(linkage, demand, &Position::at_rest(linkage)).expect("a pose")
                });
                let states = [&left, &right];
                let mut same = |is: Option<f64>, should: &Value, what: &str| {
                    let near = match (is, should.as_f64()) {
                        (Some(is), Some(should)) => {
                            let accuracy = if what.starts_with("caster") { CASTER } else { ACCURACY };
                            (is - should).abs() <= accuracy * should.abs().max(1.0)
                        }
                        (is, should) => is == should,
                    };
                    if !near {
                        let (joints, frame) = (&variant["joints"], &variant["frame"]);
                        wrong
                            .push(format!("{name}, {joints}, {frame}, {travel}, {rack}, {what}: {is:?}, not {should}"));
                    }
                };
                // The other wheel given, and found by the wheel's own travel and rack.
                let given = Snapshot::alone(&axle, &left).beside(&right);
                for place in [given, Snapshot::alone(&axle, &left)] {
                    for (reading, should) in readings().zip(at["readings"].as_array().expect("a row")) {
                        same((reading.value)(&place), should, reading.column);
                        read += 1;
                    }
                }
                // The spring on its member, as a free body has it; the force in the same direction of the car on both wheels.
                let of_body = |under: &&Value| under["spring"] == "member" && under["force"] == "same";
                let under_load = at["under_load"].as_array().and_then(|list| list.iter().find(of_body));
                if let Some(under) = under_load {
                    let wrenches = force_wrenches(force, states);
                    let [is, _] = UnderLoad::wrenches(&bushes, &axle, states, &wrenches).expect("held");
                    let row = &under["row"];
                    for (i, column) in UNDER_LOAD.iter().enumerate() {
                        same((column.value)(&is), &row[i], column.column);
                    }
                    same(Some(is.wheel_centre.z), &row[5], "wheel centre, up");
                    loaded += 1;
                }
            }
        }
    }
    assert!(
        wrong.is_empty(),
        "{} of {read} and {loaded} rows:\n{}",
        wrong.len(),
        wrong[..wrong.len().min(40)].join("\n")
    );
    assert!(read > 4_000 && loaded > 50, "{read} readings, {loaded} rows under load");
}
