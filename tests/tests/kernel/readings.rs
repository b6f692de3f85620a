//! The one list of readings and what it is read from.

use kernel::{Demand, Group, READINGS, Reading, Snapshot, Stance, Subject, Whole};
use std::collections::BTreeSet;
use std::rc::Rc;
use tests::{DEMOS, axle, demo, near};

/// A reading is found by its column and by its column without its unit, and no two share a name.
#[test]
fn every_reading_has_a_name_of_its_own() {
    let mut names = BTreeSet::new();
    for reading in &READINGS {
        for name in BTreeSet::from([reading.column, reading.short()]) {
            assert!(names.insert(name), "{name} is given twice");
            assert_eq!(Reading::named(name).map(|found| found.column), Some(reading.column));
        }
    }
    assert!(Reading::named("Camber").is_none(), "words are no ids");
}

#[test]
fn every_group_has_an_id_of_its_own() {
    let groups: BTreeSet<String> = READINGS.iter().map(|reading| format!("{:?}", reading.group)).collect();
    let ids: BTreeSet<&str> = READINGS.iter().map(|reading| reading.group.id()).collect();
    assert_eq!(groups.len(), ids.len());
    assert_eq!(Group::HalfShaft.id(), "half-shaft");
}

/// One wheel alone has no reading of the axle; without roll both wheels are solved when one is asked for, and read the same as when they are
/// solved at once. The wheel's own readings are those of the wheel alone.
#[test]
fn both_wheels_are_solved_when_a_reading_asks() {
    for name in DEMOS {
        let axle = Rc::new(axle(&demo(name)));
        let (travel, rack) = (15.0, if axle.steered() { -8.0 } else { 0.0 });
        let state = axle.state(Demand::new(travel, rack)).expect("a position");
        let whole = Whole::at(&axle, Stance { roll: 0.0, travel, rack }, &axle.at_rest()).expect("a position");
        let (alone, level) = (Snapshot::alone(&axle, &state), Snapshot::level(&axle, &state));
        let mut seen = 0;
        for reading in &READINGS {
            let [alone, level, both] = [&alone, &level, &Snapshot::both(&whole)].map(|place| (reading.value)(place));
            if reading.subject() != Subject::Axle {
                assert_eq!(alone, level, "{name}, {}", reading.column);
                continue;
            }
            assert_eq!((alone, level.is_some()), (None, both.is_some()), "{name}, {}", reading.column);
            if let (Some(level), Some(both)) = (level, both) {
                near(level, both, 1e-7 * both.abs().max(1.0), &format!("{name}, {}", reading.column));
                seen += 1;
            }
        }
        assert!(seen > 15, "{name}: {seen}");
    }
}

/// Every reading of every demo, over travel and rack, is a number or nothing; a rig finds the same at every rack; a rigid layout has nothing that
/// gives way, the same layout on bushes has everything.
#[test]
fn readings_are_numbers_wherever_a_demo_goes() {
    let rubber = kernel::Bush { radial: Some(4_000.0), axial: Some(700.0), ..kernel::Bush::default() };
    for name in DEMOS {
        let rigid = demo(name);
        let mut soft = rigid.clone();
        soft.stiffness.insert(kernel::Anchor::LowerFront, rubber);
        for layout in [rigid, soft] {
            let axle = Rc::new(axle(&layout));
            for travel in [-50.0, 0.0, 50.0] {
                let racks = if axle.steered() { vec![-30.0, 0.0, 30.0] } else { vec![0.0] };
                let states: Vec<_> =
                    racks.iter().map(|rack| axle.state(Demand::new(travel, *rack)).expect("a pose")).collect();
                let places: Vec<_> = states.iter().map(|state| Snapshot::level(&axle, state)).collect();
                for reading in &READINGS {
                    let values: Vec<_> = places.iter().map(|place| (reading.value)(place)).collect();
                    let what = format!("{name}, {}, {travel}: {values:?}", reading.column);
                    assert!(values.iter().flatten().all(|value| value.is_finite()), "{what}");
                    match reading.subject() {
                        Subject::Rig => assert!(
                            values.iter().all(|value| {
                                value.zip(values[0]).map_or(!axle.steered(), |(a, b)| (a - b).abs() < 1e-8)
                            }),
                            "{what}"
                        ),
                        Subject::Elastic => {
                            assert!(values.iter().all(|value| value.is_some() == axle.gives_way()), "{what}");
                        }
                        Subject::Space => {
                            assert!(values.iter().all(|value| value.is_some_and(|gap| gap >= 0.0)), "{what}");
                        }
                        _ => {}
                    }
                }
            }
        }
    }
}

/// What is known beside a state is worked out once for all who read there; at another rack a rig's sweep is not made again.
#[test]
fn what_is_kept_beside_a_state_is_solved_once() {
    let axle = axle(&demo("four-arm"));
    let [ahead, turned] = [0.0, 20.0].map(|rack| axle.state(Demand::new(10.0, rack)).expect("a pose"));
    let known = kernel::Known::default();
    let beside = known.with_another_rack();
    let caster = Reading::named("caster_sweep_deg").expect("a reading");
    let runs = |place: Snapshot| {
        let before = kernel::newton_runs();
        assert!((caster.value)(&place).is_some());
        kernel::newton_runs() - before
    };
    assert!(runs(Snapshot::alone(&axle, &ahead).knowing(&known)) >= 4);
    assert_eq!(runs(Snapshot::alone(&axle, &ahead).knowing(&known)), 0);
    assert_eq!(runs(Snapshot::alone(&axle, &turned).knowing(&beside)), 0);
}

/// Movements count from where the car stands: by hand, from two states of the bare linkage.
#[test]
fn movements_count_from_where_the_car_stands() {
    let layout = demo("strut");
    let drawn = axle(&layout);
    let lowered = kernel::Axle::standing_at(&layout, 30.0).expect("an axle");
    let [low, high] = [30.0, 45.0].map(|travel| drawn.state(Demand::new(travel, 0.0)).expect("a position"));
    let track = Reading::named("track_change_mm").expect("a reading");
    let moved = |snapshot: Snapshot| (track.value)(&snapshot).expect("a value");
    let out = |state: &kernel::State| state.position.pose.w.y + state.attitude.contact.y;
    near(moved(Snapshot::alone(&lowered, &high)), out(&high) - out(&low), 1e-9, "from where it stands");
    near(moved(Snapshot::of(&high)), out(&high) - out(drawn.stands()), 1e-9, "from rest");
    assert_eq!(moved(Snapshot::alone(&lowered, lowered.stands())), 0.0);
}
