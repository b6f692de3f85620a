//! The table on the command line, with its columns, exit codes and sentences.

use std::process::Output;
use tests::example;

const COLUMNS: &str = "travel_mm,rack_mm,camber_deg,steer_deg,toe_deg,track_change_mm,wheelbase_change_mm,caster_deg,\
kingpin_inclination_deg,scrub_radius_mm,caster_offset_ground_mm,kingpin_offset_wheel_centre_mm,caster_offset_wheel_centre_mm,\
screw_pitch_mm_per_rad,brake_lever_arm_mm,drive_lever_arm_mm,side_lever_arm_mm,wheel_load_lever_arm_mm,spring_length_mm,\
motion_ratio,bump_steer_deg_per_mm,bump_camber_deg_per_mm,roll_centre_height_mm,support_angle_brake_deg,\
support_angle_wheel_centre_deg";

/// What came later stands behind, and behind the forces.
const LATER: &str = "half_shaft_inner_angle_deg,half_shaft_outer_angle_deg,half_shaft_plunge_mm";

fn sweep(file: &str, arguments: &[&str]) -> Output {
    let file = if file.contains('/') { file.into() } else { format!("demo-layouts/{file}") };
    example("sweep", &[&[file.as_str()], arguments].concat())
}

fn rows(output: &Output) -> Vec<Vec<String>> {
    let text = String::from_utf8(output.stdout.clone()).expect("text");
    text.lines().map(|line| line.split(',').map(String::from).collect()).collect()
}

#[test]
fn one_row_a_state_travel_outside_rack_inside() {
    let output = sweep("four-arm.json", &["--travel=-60..60/30", "--rack=20..-20/20"]);
    assert!(output.status.success() && output.stderr.is_empty());
    let rows = rows(&output);
    assert_eq!(rows[0].join(","), format!("{COLUMNS},{LATER}"));
    let positions: Vec<String> = rows[1..].iter().map(|row| row[..2].join(" ")).collect();
    let expected: Vec<String> =
        [-60, -30, 0, 30, 60].iter().flat_map(|t| [20, 0, -20].map(|r| format!("{t} {r}"))).collect();
    assert_eq!(positions, expected);
    assert!(
        rows[1..]
            .iter()
            .flatten()
            .all(|cell| cell.parse::<f64>().is_ok_and(f64::is_finite) && !cell.starts_with("-0,"))
    );
}

#[test]
fn a_single_number_is_a_range_of_one_and_digits_are_full() {
    let rows = rows(&sweep("strut.json", &["--travel=12.5", "--rack=0.3"]));
    assert_eq!((rows.len(), rows[1][0].as_str(), rows[1][1].as_str()), (2, "12.5", "0.3"));
    assert!(rows[1][2].len() >= 15, "{}", rows[1][2]);
}

#[test]
fn an_unsteered_axle_leaves_the_steering_columns_empty() {
    let rows = rows(&sweep("five-rod-unsteered.json", &["--travel=-20..20/20"]));
    for row in &rows[1..] {
        for (column, cell) in rows[0].iter().zip(row) {
            let steering = COLUMNS.split(',').skip(7).take(11).any(|c| c == column);
            // This demo has no half-shaft.
            assert_eq!(cell.is_empty(), steering || LATER.contains(column.as_str()), "{column}");
        }
    }
}

#[test]
fn forces_add_a_column_a_member() {
    let with = |file| rows(&sweep(file, &["--force=-3000,500,4000"]));
    let members = "force_lower_front_n,force_lower_rear_n,force_upper_front_n,force_upper_rear_n,force_track_rod_n,force_spring_n";
    let arms = with("four-arm.json");
    assert_eq!(arms[0].join(","), format!("{COLUMNS},{members},{LATER},rack_force_n,steering_moment_n_mm"));
    assert!(arms[1][25..].iter().all(|cell| cell.parse::<f64>().is_ok()));
    let strut = with("strut.json");
    assert_eq!(
        strut[0].join(","),
        format!("{COLUMNS},{members},force_strut_side_n,{LATER},rack_force_n,steering_moment_n_mm")
    );
    assert!(strut[1][27].is_empty() && strut[1][28].is_empty(), "a strut has no upper rods");
    let case = rows(&sweep("strut.json", &["--case=braking"]));
    assert_eq!(case[0], strut[0]);
    assert_ne!(case[1], strut[1]);
    let said = sweep("strut.json", &["--case=flying"]);
    assert!(
        !said.status.success() && String::from_utf8_lossy(&said.stderr).contains("choose one of: standing, braking")
    );
    assert!(strut[1][31].parse::<f64>().is_ok_and(|side| side > 0.0));
}

#[test]
fn a_state_that_cannot_be_assembled_ends_the_run_after_the_rows_before_it() {
    let output = sweep("four-arm.json", &["--travel=200..400/50"]);
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(rows(&output).len(), 3, "header, 200 and 250");
    let said = String::from_utf8(output.stderr).expect("text");
    assert!(said.contains("arm") && said.contains(" mm too short") && said.lines().count() == 1, "{said}");
}

/// Rows on both sides of a gap that the linkage can't cross: all are printed, and standard error says where the gap is.
#[test]
fn a_row_not_connected_with_the_one_before_is_told_of() {
    let output = sweep("tests/wild/gap.json", &["--travel=-36.5", "--rack=-52..104/52"]);
    let said = String::from_utf8(output.stderr.clone()).expect("text");
    assert!(output.status.success() && rows(&output).len() == 5, "{said}");
    assert!(said.starts_with("The row at travel -36.5 mm with rack +52.0 mm is not connected"), "{said}");
    assert_eq!(said.lines().count(), 1, "{said}");
}

/// With `--axle` the columns of the whole axle stand behind a wheel's, which are those of the left wheel: at roll 0 and rack 0 the same numbers as
/// without; the mirror law holds from row to row.
#[test]
fn the_whole_axle_stands_behind_the_wheel() {
    let alone = rows(&sweep("strut.json", &["--travel=20"]));
    let both = rows(&sweep("strut.json", &["--travel=20", "--roll=-3..3/3", "--axle"]));
    let wheel = alone[0].len();
    assert_eq!(both.len(), 4);
    assert_eq!(both[0][..wheel], alone[0][..]);
    assert_eq!(
        both[0][wheel..].len(),
        kernel::READINGS.iter().filter(|reading| reading.subject() == kernel::Subject::Axle).count()
    );
    let number = |row: usize, column: &str| -> f64 {
        let at = both[0].iter().position(|name| name == column).expect("a column");
        both[row][at].parse().expect("a number")
    };
    for column in ["camber_deg", "caster_deg", "spring_length_mm"] {
        let at = alone[0].iter().position(|name| name == column).expect("a column");
        assert!((number(2, column) - alone[1][at].parse::<f64>().expect("a number")).abs() < 1e-9, "{column}");
    }
    assert_eq!([1, 2, 3].map(|row| number(row, "roll_deg")), [-3.0, 0.0, 3.0]);
    assert!((number(1, "travel_left_mm") - number(3, "travel_right_mm")).abs() < 1e-9);
    for column in ["roll_stiffness_nm_per_deg", "anti_dive_percent", "ride_frequency_hz"] {
        assert!((number(1, column) - number(3, column)).abs() < 1e-6 * number(1, column).abs(), "{column}");
    }
    let said = |arguments: &[&str]| String::from_utf8(sweep("strut.json", arguments).stderr).expect("text");
    assert!(said(&["--roll=2"]).contains("give --axle too"));
    assert!(said(&["--axle", "--roll=80"]).contains("out of range"));
}

/// `--rig` stands behind a wheel's columns and before what gives way: the same at every rack, empty without a rack. Nobody who does not ask gets it.
#[test]
fn what_a_rig_finds_is_appended() {
    const RIG: &str = "caster_sweep_deg,kingpin_inclination_sweep_deg,included_angle_sweep_deg";
    let plain = rows(&sweep("four-arm.json", &["--rack=-20..20/20"]));
    let swept = rows(&sweep("four-arm.json", &["--rack=-20..20/20", "--rig"]));
    assert_eq!(swept[0].join(","), format!("{},{RIG}", plain[0].join(",")));
    let wheel = plain[0].len();
    for (plain, swept) in plain[1..].iter().zip(&swept[1..]) {
        assert_eq!(swept[..wheel], plain[..]);
        let number = |at: usize| swept[wheel + at].parse::<f64>().expect("a number");
        // As the witness has it: changes_reference.py, four-arm at travel 0.
        assert!((number(0) - 3.3).abs() < 0.05 && (number(1) + 0.2).abs() < 0.05, "{swept:?}");
    }
    let elastic = rows(&sweep("four-arm.json", &["--rig", "--elastic"]));
    assert!(elastic[0].join(",").starts_with(&format!("{},toe_side_force", swept[0].join(","))));
    let unsteered = rows(&sweep("five-rod-unsteered.json", &["--rig"]));
    assert!(unsteered[1][wheel..].iter().all(String::is_empty));
}

/// `--elastic` stands behind everything else: empty for a rigid layout, and with a load what gives way under it.
#[test]
fn what_gives_way_stands_last() {
    const ELASTIC: &str = "toe_side_force_deg_per_kn,camber_side_force_deg_per_kn,axle_steer_side_force_deg_per_kn,\
contact_sideways_mm_per_kn,toe_brake_force_deg_per_kn,toe_drive_force_deg_per_kn,wheel_centre_lengthwise_mm_per_kn,\
toe_aligning_moment_deg_per_100_nm,side_force_no_steer_point_mm";
    const UNDER_LOAD: &str = "toe_under_load_deg,camber_under_load_deg,caster_under_load_deg,\
wheel_centre_x_under_load_mm,wheel_centre_y_under_load_mm";
    let rigid = rows(&sweep("strut.json", &["--elastic", "--case=outer"]));
    let plain = rows(&sweep("strut.json", &["--case=outer"]));
    let (header, wheel) = (rigid[0].join(","), plain[0].len());
    assert_eq!(header, format!("{},{ELASTIC},{UNDER_LOAD}", plain[0].join(",")));
    assert_eq!(rigid[1][..wheel], plain[1][..]);
    assert!(rigid[1].len() == wheel + 14 && rigid[1][wheel..].iter().all(String::is_empty));
    let soft = std::env::temp_dir().join(format!("gives-way-{}.json", std::process::id()));
    let text =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../demo-layouts/strut.json")).expect("a demo");
    let entry = r#"{"stiffness": {"lower.rear": {"radial": 1500, "axial": 500}, "rack": {"along": 8000}},"#;
    std::fs::write(&soft, text.replacen('{', entry, 1)).expect("a file");
    let file = soft.to_str().expect("a path");
    let both = rows(&sweep(file, &["--elastic", "--axle", "--travel=10"]));
    let alone = rows(&sweep(file, &["--elastic", "--travel=10"]));
    let pushed = rows(&sweep(file, &["--elastic", "--force=0,-1000,0"]));
    std::fs::remove_file(&soft).expect("it is there");
    assert!(both[0].join(",").ends_with(ELASTIC) && alone[0].join(",").ends_with(ELASTIC));
    assert!(pushed[1][wheel - 2..].iter().all(|cell| cell.parse::<f64>().is_ok_and(|value| value != 0.0)));
    let number = |row: &[String], back: usize| row[row.len() - back].parse::<f64>().expect("a number");
    for back in 1..=9 {
        assert!((number(&both[1], back) / number(&alone[1], back) - 1.0).abs() < 1e-6, "{back}");
    }
}

#[test]
fn a_bad_call_says_what_is_wrong() {
    for (arguments, word) in [
        (&["--travel=a"][..], "“a” is not a number"),
        (&["--travel=1..2"], "no /STEP"),
        (&["--travel=1..2/0"], "step that is not 0"),
        (&["--rack=0..1e9/0.001"], "more than"),
        (&["--force=1,2"], "three numbers"),
        (&["--wings"], "Unknown argument"),
    ] {
        let output = sweep("four-arm.json", arguments);
        let said = String::from_utf8(output.stderr).expect("text");
        assert!(
            output.status.code() == Some(1) && output.stdout.is_empty() && said.contains(word),
            "{arguments:?}: {said}"
        );
    }
}
