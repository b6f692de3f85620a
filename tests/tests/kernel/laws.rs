//! What must hold for every sound axle, without any source: demos with every joint moved by up to 15 mm, of every kind.
//! Long because it holds every law.

use kernel::{
    Built, Change, Constraint, Demand, Follower, Guide, Height, Layout, LeftOrRight, MemberForces, PointId, Pose,
    Position, READINGS, Rod, Rotation, Sides, Snapshot, Spring, SpringOn, State, Steering, Twist, Unit, Vec3, Wrench,
    frame::mirror, settled, solve, sweep,
};
use proptest::prelude::*;
use tests::{DEMOS, demo, linkage, longer, near, read, rest, state};

/// A demo with its joints moved, and maybe one wishbone, or the spring, of another kind.
fn axles() -> impl Strategy<Value = Layout> {
    let moves = prop::collection::vec((-15.0..15.0, -15.0..15.0, -15.0..15.0), 20);
    (0..DEMOS.len(), moves, 0..4_usize, 0..3_usize).prop_map(|(index, moves, split, foot)| {
        let mut layout = demo(DEMOS[index]);
        let ids: Vec<PointId> = layout.points().map(|(id, _)| id).filter(|id| *id != PointId::WheelCentre).collect();
        for (id, (x, y, z)) in ids.into_iter().zip(moves) {
            *layout.point_mut(id).expect("it has the point") += Vec3::new(x, y, z);
        }
        if split & 1 == 1 {
            layout.lower = split_wishbone(&layout.lower);
        }
        if split & 2 == 2 {
            layout.upper = split_wishbone(&layout.upper);
        }
        layout.spring = spring(&layout, foot);
        layout
    })
}

/// Two arms that share their outer joint are a wishbone.
fn split_wishbone(guide: &Guide) -> Guide {
    match guide {
        Guide::Wishbone { front, rear, outer } => {
            let arm = |inner: &Vec3| Rod { inner: *inner, outer: *outer };
            Guide::Arms { front: arm(front), rear: arm(rear) }
        }
        other => other.clone(),
    }
}

/// The layout's own spring if its part still exists, or one on the carrier or on a lower arm or wishbone.
fn spring(layout: &Layout, foot: usize) -> Spring {
    let wishbone = matches!(layout.lower, Guide::Wishbone { .. });
    let on = match (foot, layout.spring.on) {
        (0, SpringOn::Strut) => return layout.spring.clone(),
        (1, _) => SpringOn::Carrier,
        (2, _) if !wishbone => SpringOn::LowerRear,
        _ if wishbone => SpringOn::Lower,
        _ => SpringOn::LowerFront,
    };
    let ends = (Vec3::new(-5.0, 560.0, 700.0), Vec3::new(3.0, 600.0, 195.0));
    Spring {
        on,
        top: Some(layout.spring.top.unwrap_or(ends.0)),
        foot: Some(layout.spring.foot.unwrap_or(ends.1)),
        rate: 50.0,
        rocker: None,
    }
}

/// A position within the range that nearly every moved demo still has.
fn positions() -> impl Strategy<Value = (f64, f64)> {
    (-45.0..45.0, -35.0..35.0)
}

/// An axle in a position with a fifth to spare, so that no law is tried where the linkage is about to lock.
fn placed() -> impl Strategy<Value = (Layout, (f64, f64))> {
    (axles(), positions()).prop_filter("it moves that far", |(layout, (travel, rack))| {
        let axle = linkage(layout);
        solve(&axle, demand(layout, (1.2 * travel, 1.2 * rack)), &rest(&axle)).is_ok()
    })
}

fn demand(layout: &Layout, (travel, rack): (f64, f64)) -> Demand {
    Demand::new(travel, if layout.rack.is_some() { rack } else { 0.0 })
}

/// Tolerances: lengths in mm of axles of a metre solved to 1e-11; what is read off them, conditioned by up to 1e3.
const LENGTH: f64 = 1e-8;
const READING: f64 = 1e-7;

fn same_readings(a: &State, b: &State, law: impl Fn(Unit, &str, f64) -> f64) {
    let [a, b] = [a, b].map(Snapshot::of);
    for reading in &READINGS {
        if let (Some(a), Some(b)) = ((reading.value)(&a), (reading.value)(&b)) {
            let should = law(reading.unit, reading.column, a);
            near(b, should, READING * should.abs().max(1.0), reading.column);
        }
    }
}

fn moved(layout: &Layout, change: impl Fn(Vec3) -> Vec3) -> Layout {
    let mut layout = layout.clone();
    let ids: Vec<PointId> = layout.points().map(|(id, _)| id).collect();
    for id in ids {
        let point = layout.point_mut(id).expect("it has the point");
        *point = change(*point);
    }
    layout
}

proptest! {
    #![proptest_config(tests::cases(200))]

    #[test]
    fn residuals_close_and_demands_are_met((layout, at) in placed()) {
        let axle = linkage(&layout);
        let demand = demand(&layout, at);
        let solved = solve(&axle, demand, &rest(&axle)).expect("a pose");
        let (residuals, _) = axle.guides(&solved.position.pose, solved.position.rack);
        for residual in residuals {
            near(residual, 0.0, 1e-9, "residual");
        }
        near(solved.position.pose.w.z - layout.wheel.centre.z, at.0, 1e-9, "travel");
    }

    /// No change of lengths changes nothing, to the last digit; a change and its opposite neither.
    #[test]
    fn no_change_changes_nothing((layout, at) in placed(), by in -2.0..2.0_f64) {
        let linkage = linkage(&layout);
        let mut changed = layout.clone();
        for change in Change::all(&layout).into_iter().filter(|change| !change.of_both()) {
            changed.changes.set(Sides::Both, change, by);
            changed.changes.set(Sides::One(LeftOrRight::Left), change, -by);
        }
        for layout in [&layout, &changed] {
            let built = Built::of(layout, LeftOrRight::Left);
            prop_assert_eq!(&settled(&linkage, layout, &built).expect("the design"), &linkage);
            prop_assert_eq!(&linkage.stretched(&built), &linkage);
        }
        let demand = demand(&layout, at);
        let longer = longer(&layout, &linkage, linkage.rows()[4].member, 0.5);
        if let (Ok(a), Ok(b)) = (State::solve(&linkage, demand, &rest(&linkage)), State::solve(&longer, demand, &rest(&longer))) {
            prop_assert!(a.attitude.steer != b.attitude.steer, "a longer track rod steers");
        }
    }

    /// Asked for the spring length or the steer angle that a pose has, the solver finds that pose.
    #[test]
    fn other_demands_find_the_same_pose((layout, at) in placed()) {
        let axle = linkage(&layout);
        let state = state(&axle, demand(&layout, at));
        let steering = if layout.rack.is_some() { Steering::Steer(state.attitude.steer) } else { Steering::Rack(0.0) };
        let height = if state.bump.motion_ratio.abs() > 0.2 { Height::SpringLength(state.spring_length) } else { Height::Travel(at.0) };
        let again = solve(&axle, Demand { height, steering }, &rest(&axle)).expect("a pose");
        near((again.position.pose.w - state.position.pose.w).norm(), 0.0, LENGTH, "wheel centre");
        near(again.position.rack, state.position.rack, LENGTH, "rack");
    }

    #[test]
    fn mirror_left_to_right((layout, at) in placed()) {
        let axle = linkage(&layout);
        let demand = demand(&layout, at);
        let here = solve(&axle, demand, &rest(&axle)).expect("a pose").position;
        let image = axle.mirrored_guides();
        let Steering::Rack(rack) = demand.steering else { unreachable!("positions hold the rack") };
        let there = solve(&image, Demand::new(at.0, -rack), &rest(&image)).expect("a pose").position;
        near((mirror(here.pose.w) - there.pose.w).norm(), 0.0, LENGTH, "wheel centre");
        for axis in [Vec3::x(), Vec3::y(), Vec3::z()] {
            near((mirror(here.pose.r * axis) - there.pose.r * mirror(axis)).norm(), 0.0, 1e-10, "rotation");
        }
    }

    #[test]
    fn move_along_x((layout, at) in placed()) {
        let along = moved(&layout, |p| p + Vec3::x() * 1234.5);
        let (a, b) = (state(&linkage(&layout), demand(&layout, at)), state(&linkage(&along), demand(&layout, at)));
        same_readings(&a, &b, |_, _, value| value);
    }

    #[test]
    fn scale((layout, at) in placed(), k in 0.5_f64..3.0) {
        let mut large = moved(&layout, |p| p * k);
        large.wheel.loaded_radius *= k;
        if let Some(rack) = &mut large.rack {
            rack.travel *= k;
        }
        let (a, b) = (state(&linkage(&layout), demand(&layout, at)), state(&linkage(&large), demand(&layout, (at.0 * k, at.1 * k))));
        same_readings(&a, &b, |unit, _, value| match unit {
            Unit::Millimetre | Unit::MillimetrePerRadian => value * k,
            Unit::DegreePerMillimetre => value / k,
            // The others are the whole axle’s.
            _ => value,
        });
    }

    /// There and back again, and from rest: the pose does not depend on the way.
    #[test]
    fn reverse_a_path((layout, at) in placed()) {
        let axle = linkage(&layout);
        let steps: Vec<Demand> = (0..=8).map(|i| demand(&layout, (at.0 * f64::from(i) / 8.0, at.1 * f64::from(i) / 8.0))).collect();
        let path = steps.iter().chain(steps.iter().rev()).copied();
        let poses: Vec<Position> = sweep(&axle, path).map(|solved| solved.expect("a pose").position).collect();
        for (there, back) in poses.iter().zip(poses.iter().rev()) {
            near((there.pose.w - back.pose.w).norm(), 0.0, LENGTH, "there and back");
        }
        let direct = solve(&axle, steps[8], &rest(&axle)).expect("a pose").position;
        near((direct.pose.w - poses[8].pose.w).norm(), 0.0, LENGTH, "from rest");
    }

    #[test]
    fn a_wishbone_is_two_arms_that_share_a_joint((layout, at) in placed()) {
        let mut split = layout.clone();
        split.lower = split_wishbone(&layout.lower);
        split.upper = split_wishbone(&layout.upper);
        // A foot on a wishbone turns about its body axis, one on an arm does not: compare with the spring elsewhere.
        let mut joined = layout.clone();
        for layout in [&mut joined, &mut split] {
            if layout.spring.on != SpringOn::Strut {
                layout.spring.on = SpringOn::Carrier;
            }
        }
        let (a, b) = (state(&linkage(&joined), demand(&layout, at)), state(&linkage(&split), demand(&layout, at)));
        same_readings(&a, &b, |_, _, value| value);
    }

    /// Where two ball joints, or a ball joint and the top mount, make the axis and the spring stands on it or on the wishbone,
    /// the screw is the line through them and its pitch is 0.
    #[test]
    fn real_joints_make_the_axis(index in 0..2_usize, at in positions(), shift in (-15.0..15.0, -15.0..15.0, -15.0..15.0)) {
        let mut layout = demo(DEMOS[index]);
        *layout.point_mut(PointId::LowerOuter).expect("a ball joint") += Vec3::new(shift.0, shift.1, shift.2);
        let axle = linkage(&layout);
        let state = state(&axle, demand(&layout, at));
        let axis = state.axis.expect("a steered axle");
        let pose = &state.position.pose;
        let lower = pose.place(layout.point(PointId::LowerOuter).expect("a ball joint") - layout.wheel.centre);
        let upper = match layout.upper {
            Guide::Strut { top, .. } => top,
            _ => pose.place(layout.point(PointId::UpperOuter).expect("a ball joint") - layout.wheel.centre),
        };
        near(axis.screw.pitch, 0.0, READING, "pitch");
        for joint in [lower, upper] {
            near((joint - pose.w - axis.screw.a).cross(&axis.screw.k).norm(), 0.0, READING, "distance of the joint from the axis");
        }
    }

    /// Lever arms and offsets, for any pitch p and any steer angle: brake = scrub·k_z − p·k·e_x', drive = offset·k_z − p·k·e_x',
    /// side = caster offset·k_z − p·k·e_y'. With p = 0 and the wheel ahead these are the usual ones, force times offset.
    #[test]
    fn lever_arms_follow_from_offsets((layout, at) in placed()) {
        let state = state(&linkage(&layout), demand(&layout, at));
        if let Ok(axis) = &state.axis {
            let (k, p) = (axis.screw.k, axis.screw.pitch);
            let along = p * k.dot(&state.attitude.heading);
            let across = p * k.dot(&state.attitude.side);
            for (lever, offset, slide) in [
                ("brake_lever_arm_mm", "scrub_radius_mm", along),
                ("drive_lever_arm_mm", "kingpin_offset_wheel_centre_mm", along),
                ("side_lever_arm_mm", "caster_offset_ground_mm", across),
            ] {
                near(read(&state, lever), read(&state, offset) * k.z - slide, READING, lever);
            }
        }
    }

    /// The steering axis from the exact Jacobian against re-solved poses: the rack moved a little, the spring length held.
    #[test]
    fn axis_against_differences((layout, at) in placed()) {
        let axle = linkage(&layout);
        let state = state(&axle, demand(&layout, at));
        if let (Ok(axis), true) = (&state.axis, state.bump.motion_ratio.abs() > 0.2) {
            let step = 1e-3;
            let poses = [-step, step].map(|by| {
                let demand = Demand { height: Height::SpringLength(state.spring_length), steering: Steering::Rack(state.position.rack + by) };
                solve(&axle, demand, &state.position).expect("a pose").position.pose
            });
            let turn = (poses[1].r * poses[0].r.inverse()).scaled_axis();
            let twist = Twist { v: poses[1].w - poses[0].w, omega: turn };
            let screw = twist.screw().expect("a turn");
            let k = if screw.k.z < 0.0 { -screw.k } else { screw.k };
            // Differences over 2 µm of poses good to 1e-11 mm.
            near((k - axis.screw.k).norm(), 0.0, 1e-5, "direction");
            near(screw.pitch, axis.screw.pitch, 2e-2, "pitch");
            near((screw.a - axis.screw.a).norm(), 0.0, 2e-2, "place");
        }
    }

    /// Rows against central differences: every guide, and the spring on whatever it stands.
    #[test]
    fn rows_are_derivatives((layout, at) in placed(), v in (-1.0..1.0, -1.0..1.0, -1.0..1.0), w in (-1.0..1.0, -1.0..1.0, -1.0..1.0)) {
        let axle = linkage(&layout);
        let state = state(&axle, demand(&layout, at));
        let Position { pose, rack } = state.position;
        let twist = Twist { v: Vec3::new(v.0, v.1, v.2), omega: Vec3::new(w.0, w.1, w.2) / 300.0 };
        let step = 1e-2;
        let displaced = |k: f64| Pose { w: pose.w + twist.v * k, r: Rotation::new(twist.omega * k) * pose.r };
        let [back, forth] = [-step, step].map(displaced);
        let ((a, _), (b, _)) = (axle.guides(&back, rack), axle.guides(&forth, rack));
        for i in 0..5 {
            near(state.guides[i].rate(&twist), (b[i] - a[i]) / (2.0 * step), 1e-7, "guide");
        }
        let difference = (axle.spring().evaluate(&forth).0 - axle.spring().evaluate(&back).0) / (2.0 * step);
        near(state.spring.rate(&twist), difference, 1e-7, "spring");
    }

    /// Statics by rows against virtual work: lengthen one member alone by finite differences, and its force times that
    /// is the work of the road force.
    #[test]
    fn forces_do_the_work((layout, at) in placed(), force in (-4000.0..4000.0, -4000.0..4000.0, 0.0..6000.0)) {
        let axle = linkage(&layout);
        let state = state(&axle, demand(&layout, at));
        prop_assume!(state.bump.motion_ratio.abs() > 0.2);
        let force = Vec3::new(force.0, force.1, force.2);
        let forces = MemberForces::under_road_force(&state, force).expect("held");
        let a = state.attitude;
        let force = a.heading * force.x + a.side * force.y + Vec3::z() * force.z;
        let held = Demand { height: Height::SpringLength(state.spring_length), steering: Steering::Rack(state.position.rack) };
        let step = 1e-3;
        for i in 0..5 {
            let Constraint::Rod { .. } = axle.rows()[i].constraint else { continue };
            let contact = [-step, step].map(|by| {
                let longer = longer(&layout, &axle, axle.rows()[i].member, by);
                let pose = solve(&longer, held, &state.position).expect("a pose").position.pose;
                // The contact point as a point of the carrier, wheel locked.
                pose.w + pose.r * (state.position.pose.r.inverse() * a.contact)
            });
            let work = force.dot(&(contact[1] - contact[0])) / (2.0 * step);
            near(forces.rows[i], work, 1e-3 * force.norm().max(1.0) / 1000.0 + 1e-2, axle.rows()[i].part.name());
        }
        // The spring: shortened alone, with every guide kept, it does the work of the road force on the bump motion.
        let bump = Wrench::at(a.contact, force).power(&state.bump.twist);
        near(forces.spring * state.bump.motion_ratio, bump, 1e-6 * force.norm().max(1.0), "spring");
    }
}

/// A parallelogram in front view, held along x by arms that are parallel too: the wheel keeps its camber exactly.
#[test]
fn a_parallelogram_keeps_its_angle() {
    let mut layout = demo("double-wishbone");
    let wishbone = |y: f64, z: f64| Guide::Wishbone {
        front: Vec3::new(150.0, y - 330.0, z),
        rear: Vec3::new(-150.0, y - 330.0, z),
        outer: Vec3::new(0.0, y, z + 20.0),
    };
    layout.lower = wishbone(720.0, 180.0);
    layout.upper = wishbone(690.0, 500.0);
    layout.track_rod = Rod { inner: Vec3::new(-130.0, 370.0, 260.0), outer: Vec3::new(-130.0, 700.0, 280.0) };
    let axle = linkage(&layout);
    for travel in [-80.0, -20.0, 35.0, 90.0] {
        let state = state(&axle, Demand::new(travel, 0.0));
        near(state.attitude.camber, layout.wheel.camber, 1e-10, "camber");
        near(-state.attitude.steer, layout.wheel.toe, 1e-10, "toe");
        near(state.position.pose.w.x, layout.wheel.centre.x, 1e-9, "x");
    }
}

/// Rods that are all parallel leave more than one freedom: that is said, not moved.
#[test]
fn what_does_not_hold_the_wheel_is_named() {
    let mut layout = demo("four-arm");
    let rod = |x: f64, y: f64, z: f64| Rod { inner: Vec3::new(x, y - 330.0, z), outer: Vec3::new(x, y, z) };
    layout.lower = Guide::Arms { front: rod(90.0, 700.0, 180.0), rear: rod(-110.0, 690.0, 190.0) };
    layout.upper = Guide::Arms { front: rod(60.0, 670.0, 600.0), rear: rod(-70.0, 665.0, 610.0) };
    layout.track_rod = rod(-150.0, 690.0, 300.0);
    let axle = linkage(&layout);
    let why = State::solve(&axle, Demand::new(10.0, 0.0), &rest(&axle)).expect_err("it is not held").to_string();
    assert!(why.starts_with("Already at rest, ") && why.contains("arm"), "{why}");
}

/// Every way a foot can follow has been through the laws above.
#[test]
fn every_follower_is_reached() {
    let mut seen = [false; 3];
    for name in DEMOS {
        let layout = demo(name);
        for foot in 0..3 {
            let mut layout = layout.clone();
            layout.spring = spring(&layout, foot);
            match linkage(&layout).spring().follower {
                Follower::Carrier(_) => seen[0] = true,
                Follower::Wishbone { .. } => seen[1] = true,
                Follower::Arm { .. } => seen[2] = true,
            }
        }
    }
    assert_eq!(seen, [true; 3]);
}
