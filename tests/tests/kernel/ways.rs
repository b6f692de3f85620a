//! The pose of a demand does not depend on the way it is reached, and a table says where a row is not connected with the one before.

use kernel::{Demand, Height, Layout, Linkage, PointId, Position, Solved, Steering, Unsolved, solve, sweep};
use proptest::prelude::*;
use tests::{DEMOS, demo, linkage, near, rest};

/// A demo with every joint moved by up to so many mm.
fn thrown(most: f64) -> impl Strategy<Value = Layout> {
    let moves = prop::collection::vec((-most..most, -most..most, -most..most), 20);
    (0..DEMOS.len(), moves).prop_map(|(index, moves)| {
        let mut layout = demo(DEMOS[index]);
        let ids: Vec<PointId> = layout.points().map(|(id, _)| id).filter(|id| *id != PointId::WheelCentre).collect();
        for (id, (x, y, z)) in ids.into_iter().zip(moves) {
            *layout.point_mut(id).expect("it has the point") += kernel::Vec3::new(x, y, z);
        }
        layout
    })
}

/// A layout found among those: joints of a demo up to 80 mm away.
fn wild(name: &str) -> Linkage {
    let path = format!("{}/wild/{name}.json", env!("CARGO_MANIFEST_DIR"));
    linkage(&Layout::from_json(&std::fs::read_to_string(path).expect("a file")).expect("a layout"))
}

/// Demands in a row: travel or rack in so many steps each way, the other held.
fn line(steps: i32, step: f64, held: f64, steering: bool) -> Vec<Demand> {
    let at = |i| step * f64::from(i);
    (-steps..=steps).map(|i| if steering { Demand::new(held, at(i)) } else { Demand::new(at(i), held) }).collect()
}

/// How far a point 300 mm from the wheel centre moves from one position to another, at most, mm.
fn apart(a: &Position, b: &Position) -> f64 {
    (a.pose.w - b.pose.w).norm() + 300.0 * a.pose.r.angle_to(&b.pose.r)
}

fn same(row: &Result<Solved, Unsolved>, alone: &Result<Solved, Unsolved>) -> bool {
    match (row, alone) {
        (Ok(row), Ok(alone)) => apart(&row.position, &alone.position) < 1e-3,
        (Err(row), Err(alone)) => row == alone,
        _ => false,
    }
}

/// The longest of a hundred steps between two demands of travel and rack, each solved alone, mm; endless if one can't be met.
fn longest(axle: &Linkage, from: Demand, to: Demand) -> f64 {
    let (Height::Travel(a), Height::Travel(b)) = (from.height, to.height) else { panic!("travels") };
    let (Steering::Rack(c), Steering::Rack(d)) = (from.steering, to.steering) else { panic!("racks") };
    let at = |part: f64| solve(axle, Demand::new(a + (b - a) * part, c + (d - c) * part), &rest(axle));
    let poses: Result<Vec<Solved>, Unsolved> = (0..=100).map(|i| at(f64::from(i) / 100.0)).collect();
    let steps =
        |poses: Vec<Solved>| poses.windows(2).map(|w| apart(&w[0].position, &w[1].position)).fold(0.0, f64::max);
    poses.map_or(f64::INFINITY, steps)
}

proptest! {
    #![proptest_config(tests::cases(600))]

    /// Joints anywhere: coarse and fine tables find what each demand has alone, or fail as it does.
    #[test]
    fn a_row_of_a_table_is_what_it_is_alone(layout in thrown(80.0), held in -50.0..50.0_f64, step in 1.0..50.0_f64, steering: bool) {
        let Ok(axle) = Linkage::new(&layout) else { return Ok(()) };
        let steered = layout.rack.is_some();
        let demands = line(if step > 10.0 { 2 } else { 8 }, step, if steered { held } else { 0.0 }, steered && steering);
        for (row, demand) in sweep(&axle, demands.clone()).zip(demands) {
            prop_assert!(same(&row, &solve(&axle, demand, &rest(&axle))), "{demand} in {}", layout.to_json());
        }
    }

    /// A row that says it is connected with the one before: in between, the same wheel moves there little by little. A leap would be
    /// made between two neighbours however near they are; near a fold, where the wheel runs away from the rack, the way is spread.
    #[test]
    fn rows_that_are_connected_do_not_leap(layout in thrown(80.0), held in -40.0..40.0_f64, steering: bool) {
        let Ok(axle) = Linkage::new(&layout) else { return Ok(()) };
        let steered = layout.rack.is_some();
        let demands = line(60, 0.5, if steered { held } else { 0.0 }, steered && steering);
        let mut before: Option<(Demand, Position)> = None;
        for (row, demand) in sweep(&axle, demands.clone()).zip(demands) {
            let Ok(row) = row else { before = None; continue };
            if let Some((from, start)) = before.filter(|_| row.connected) {
                let way = apart(&start, &row.position);
                if way > 5.0 {
                    prop_assert!(longest(&axle, from, demand) < 0.5 * way, "{from} to {demand} in {}", layout.to_json());
                }
            }
            before = Some((demand, row.position));
        }
    }

    /// Axles that could be built, joints within 30 mm of a demo's: the whole table is one piece.
    #[test]
    fn plausible_tables_are_one_piece(layout in thrown(30.0), held in -30.0..30.0_f64, step in 1.0..20.0_f64, steering: bool) {
        let Ok(axle) = Linkage::new(&layout) else { return Ok(()) };
        let steered = layout.rack.is_some();
        let demands = line((40.0 / step) as i32, step, if steered { held } else { 0.0 }, steered && steering);
        let rows: Vec<Solved> = sweep(&axle, demands).filter_map(Result::ok).collect();
        prop_assert!(rows.iter().all(|row| row.connected), "{}", layout.to_json());
    }
}

/// Two positions meet travel 0 with rack −51.4 mm, both continuous from rest: a table that comes from travel −48 takes the one that the
/// demand has alone, and says that it is another piece.
#[test]
fn of_two_ways_the_straight_one_counts() {
    let axle = wild("two-ways");
    let demand = Demand::new(0.0, -51.4);
    let alone = solve(&axle, demand, &rest(&axle)).expect("a pose");
    let rows: Vec<Solved> = sweep(&axle, [Demand::new(-48.0, -51.4), demand]).map(|row| row.expect("a pose")).collect();
    near(apart(&rows[1].position, &alone.position), 0.0, 1e-6, "the same pose");
    assert!(apart(&rows[0].position, &rows[1].position) > 300.0 && !rows[1].connected);
    let back: Vec<_> = sweep(&axle, [demand, Demand::new(24.0, -51.4)]).collect();
    assert!(back.iter().all(|row| row.as_ref().is_ok_and(|row| row.connected)), "{back:?}");
}

/// Rack 0 and +52 mm at travel −36.5 mm both work; in between the upper rear arm is too short.
#[test]
fn a_gap_that_a_coarse_table_steps_over_is_said() {
    let axle = wild("gap");
    let row = |racks: &[f64]| -> Vec<_> {
        sweep(&axle, racks.iter().map(|rack| Demand::new(-36.5, *rack)).collect::<Vec<_>>()).collect()
    };
    let rows = row(&[-52.0, 0.0, 52.0, 104.0]);
    let connected: Vec<bool> = rows.iter().map(|row| row.as_ref().expect("a pose").connected).collect();
    assert_eq!(connected, [true, true, false, true]);
    assert!(row(&[10.0])[0].is_err());
}

/// One definition of singular at rest: a demand and the table that leads to it say the same, however near the axle is to it.
#[test]
fn nearly_singular_at_rest_is_one_thing_for_all_demands() {
    for turn in [0.0, 1e-12, 1e-9, 1e-7, 1e-5, 1e-3] {
        let mut layout = demo("four-arm");
        if let kernel::Guide::Arms { front, rear } = &mut layout.lower {
            // The rear arm's line turned out of the front arm's by so many radians.
            *rear = *front;
            rear.inner.z += 300.0 * turn;
        }
        let axle = linkage(&layout);
        let demands = line(20, 0.5, 0.0, true);
        let alone: Vec<bool> = demands.iter().map(|demand| solve(&axle, *demand, &rest(&axle)).is_ok()).collect();
        let rows: Vec<bool> = sweep(&axle, demands).map(|row| row.is_ok()).collect();
        assert_eq!(rows, alone, "{turn}");
    }
}
