//! Six lines factored, against nalgebra's own decomposition and determinant of the same matrix: a general-purpose library.

use kernel::{Factored, Guess, Line, Pose, Rotation, State, Twist, Vec3};
use nalgebra::{Matrix6, Vector6};
use proptest::prelude::*;
use tests::{DEMOS, demo, linkage, rest};

fn line() -> impl Strategy<Value = Line> {
    let three = || (-1.0..1.0, -1.0..1.0, -1.0..1.0_f64);
    (three(), three()).prop_map(|(u, r)| {
        let vector = |(x, y, z)| Vec3::new(x, y, z);
        Line::through(vector(r) * 500.0, vector(u).try_normalize(0.1).unwrap_or_else(Vec3::z))
    })
}

fn rows(lines: &[Line; 6]) -> Matrix6<f64> {
    Matrix6::from_rows(&lines.map(|line| line.row()))
}

proptest! {
    #![proptest_config(tests::cases(500))]

    /// Its motion has the rates asked for, its determinant is the library's, whichever line comes first and whichever order other lines have left.
    #[test]
    fn lines_are_factored_as_the_library_does(
        lines in prop::array::uniform6(line()),
        others in prop::array::uniform6(line()),
        rates in prop::array::uniform6(-1.0..1.0),
    ) {
        let (matrix, factored) = (rows(&lines), Factored::near(&lines, &Factored::of(&others).order()));
        let determinant = matrix.determinant();
        prop_assume!(determinant.abs() > 1e3);
        prop_assert!((factored.determinant() - determinant).abs() < 1e-10 * determinant.abs().max(1e6), "{determinant}");
        let twist = factored.twist(&rates).expect("independent lines");
        let theirs = matrix.lu().solve(&Vector6::from(rates)).expect("independent lines");
        let ours = Vector6::new(twist.v.x, twist.v.y, twist.v.z, twist.omega.x, twist.omega.y, twist.omega.z);
        // Both are rounded; how much that is magnified the library's inverse says.
        let magnified = matrix.norm() * matrix.try_inverse().expect("independent lines").norm();
        prop_assert!((ours - theirs).norm() < 1e-14 * magnified * theirs.norm(), "{ours} {theirs}");
    }
}

proptest! {
    /// A turn, small or large, is the library's, and stays one: what it turns keeps its length.
    #[test]
    fn a_motion_turns_as_the_library_does(axis in (-1.0..1.0, -1.0..1.0, -1.0..1.0_f64), size in -9.0..0.3) {
        let omega = Vec3::new(axis.0, axis.1, axis.2) * 10.0_f64.powf(size);
        let turn = Twist { v: Vec3::x(), omega };
        let moved = Pose { w: Vec3::zeros(), r: Rotation::identity() }.moved(&turn);
        prop_assert!((moved.r.into_inner() - Rotation::new(omega).into_inner()).norm() < 3e-16);
        prop_assert!((moved.r.norm() - 1.0).abs() < 3e-16);
        prop_assert_eq!(moved.w, Vec3::x());
    }
}

/// Lines that depend on each other have no motion, and no volume.
#[test]
fn dependent_lines_are_told() {
    let along = |x: f64, u: Vec3| Line::through(Vec3::new(x, 0.0, 0.0), u);
    let twice = along(100.0, Vec3::z());
    let lines =
        [twice, twice, along(0.0, Vec3::x()), along(0.0, Vec3::y()), along(300.0, Vec3::y()), along(0.0, Vec3::z())];
    let factored = Factored::of(&lines);
    assert_eq!(factored.determinant(), 0.0);
    assert!(factored.twist(&[1.0; 6]).is_none());
}

/// A state as guess says where a demand near it is met to the second order, so a step less is taken than from its position; both end in one place.
#[test]
fn a_state_is_a_better_guess_than_its_position() {
    for name in DEMOS {
        let linkage = linkage(&demo(name));
        let steered = f64::from(u8::from(demo(name).rack.is_some()));
        let near = State::solve(&linkage, kernel::Demand::new(20.0, 9.0 * steered), &rest(&linkage)).expect("a state");
        let asked = kernel::Demand::new(20.8, 9.3 * steered);
        let told = kernel::solve(&linkage, asked, &near).expect("a pose");
        let from = kernel::solve(&linkage, asked, Guess::from(&near.position)).expect("a pose");
        assert!(told.iterations < from.iterations, "{name}: {} and {}", told.iterations, from.iterations);
        assert!((told.position.pose.w - from.position.pose.w).norm() < 1e-9, "{name}");
    }
}

/// Two states on a way say how the motions change along it, so that one correction does on it, there and back; all guesses end in one place.
#[test]
fn a_way_is_a_better_guess_than_the_last_state_on_it() {
    for name in DEMOS {
        let linkage = linkage(&demo(name));
        let steered = f64::from(u8::from(demo(name).rack.is_some()));
        let demand = |step: f64| kernel::Demand::new(20.0 + 0.8 * step, (9.0 + 0.3 * step) * steered);
        let [first, second] =
            [-1.0, 0.0].map(|step| State::solve(&linkage, demand(step), Guess::at_rest(&linkage)).expect("a state"));
        for step in [1.0, 0.5, -1.0, 1.9] {
            let told = kernel::solve(&linkage, demand(step), Guess::from(&first).onward(&second)).expect("a pose");
            let from = kernel::solve(&linkage, demand(step), &second).expect("a pose");
            assert!(
                told.iterations <= from.iterations,
                "{name} at {step}: {} and {}",
                told.iterations,
                from.iterations
            );
            assert!(step.abs() > 1.0 || told.iterations == 1, "{name} at {step}: {}", told.iterations);
            assert!((told.position.pose.w - from.position.pose.w).norm() < 1e-9, "{name} at {step}");
        }
        // The same demand again is no way: it says nothing, and spoils nothing.
        let again = kernel::solve(&linkage, demand(1.0), Guess::from(&second).onward(&second)).expect("a pose");
        assert!(again.iterations <= 2, "{name}: {}", again.iterations);
    }
}
