//! The six demos, by name.

use kernel::{Demand, Layout, sweep};
use tests::{DEMOS, demo, linkage, near, read, state};

#[test]
fn every_file_is_a_demo_and_comes_back_unchanged() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../demo-layouts");
    assert_eq!(std::fs::read_dir(folder).expect("the folder").count(), DEMOS.len());
    for name in DEMOS {
        let layout = demo(name);
        assert!(!layout.name.is_empty() && !layout.note.is_empty(), "{name}");
        assert_eq!(Layout::from_json(&layout.to_json()).as_ref(), Ok(&layout));
    }
}

/// The guides close to a billionth of a millimetre: over two thirds of the stroke at any travel, over nine tenths of it
/// at rest height. (The two-wishbone demo's track rod comes into line with its steering arm at 74.4 of its 75 mm to the right.)
#[test]
fn every_demo_moves_over_its_whole_range() {
    for name in DEMOS {
        let layout = demo(name);
        let linkage = linkage(&layout);
        let stroke = layout.rack.as_ref().map_or(0.0, |rack| rack.travel);
        let grid =
            (-6..=6).flat_map(|t| (-4..=4).map(move |r| Demand::new(10.0 * f64::from(t), stroke / 6.0 * f64::from(r))));
        let lock_to_lock = (-6..=6).map(|r| Demand::new(0.0, 0.15 * stroke * f64::from(r)));
        for solved in sweep(&linkage, grid.chain(lock_to_lock)) {
            let solved = solved.unwrap_or_else(|why| panic!("{name}: {why}"));
            assert!(solved.residual < 1e-9, "{name}: {}", solved.residual);
        }
    }
}

/// Common practice, no source: a driven strut axle has a kingpin offset at wheel centre near 66 mm, and splitting both
/// wishbones brings it to about 10 mm.
#[test]
fn the_story_of_the_demos_is_true() {
    for (name, offset) in [("strut", 66.0), ("four-arm", 10.0)] {
        near(
            read(&state(&linkage(&demo(name)), Demand::new(0.0, 0.0)), "kingpin_offset_wheel_centre_mm"),
            offset,
            0.5,
            name,
        );
    }
}

/// At rest the wheel stands as the layout says.
#[test]
fn at_rest_the_readings_are_the_layouts() {
    for name in DEMOS {
        let layout = demo(name);
        let state = state(&linkage(&layout), Demand::new(0.0, 0.0));
        near(read(&state, "camber_deg"), layout.wheel.camber, 1e-12, name);
        near(read(&state, "toe_deg"), layout.wheel.toe, 1e-12, name);
        near(read(&state, "track_change_mm"), 0.0, 0.0, name);
    }
}
