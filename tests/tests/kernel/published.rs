//! Numbers somebody published, each beside its source and grade.

use kernel::{Demand, Layout, Line, Linkage, MemberForces, Twist, Vec3, Wrench};
use nalgebra::{Matrix6, UnitQuaternion};
use serde_json::Value;
use tests::{linkage, near, read, rest, state};

/// Layouts that the reference script wrote out from the published joints, kept there in full.
fn published(case: &str) -> Layout {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/reference/scipy.json");
    let json: Value = serde_json::from_str(&std::fs::read_to_string(path).expect("the file")).expect("JSON");
    Layout::from_value(&json["published"][case]["layout"]).expect("a layout")
}

/// The double wishbone of G. Rill, A. Arrieta Castro, *Road Vehicle Dynamics*, 2nd ed., CRC Press 2020, ch. 5 (attribution
/// from memory); joints in metres from the wheel centre's height. Grade: computed from the published joints by SciPy,
/// MuJoCo, Exudyn and Pinocchio, which agree to the digits shown.
mod double_wishbone {
    use super::*;

    const JOINTS: [[f64; 3]; 9] = [
        [-0.251, 0.320, -0.080],
        [0.148, 0.320, -0.094],
        [0.013, 0.737, -0.145],
        [-0.105, 0.435, 0.196],
        [0.122, 0.435, 0.230],
        [-0.025, 0.680, 0.162],
        [-0.150, 0.380, -0.038],
        [-0.137, 0.690, -0.088],
        [0.0, 0.768, 0.0],
    ];

    fn axle() -> Linkage {
        let layout = published("textbook_double_wishbone");
        // The joints of the layout are the published ones, to the rounding of metres to millimetres.
        let mut joints: Vec<Vec3> = layout.points().map(|(_, p)| p - Vec3::z() * layout.wheel.centre.z).collect();
        joints.retain(|p| JOINTS.iter().any(|j| (Vec3::from(*j) * 1000.0 - p).norm() < 1e-9));
        assert!(joints.len() >= JOINTS.len(), "{joints:?}");
        linkage(&layout)
    }

    #[test]
    fn travel() {
        let axle = axle();
        for (travel, dx, dy, steer, camber, digits) in [
            (-60.0, 3.039500, -16.308438, 0.192330650, -0.556595489, 1e-6),
            (-30.0, 1.50787, -6.39420, 0.083677, 0.340541, 1e-5),
            (30.0, -1.485939, 3.297393, -0.070626519, 0.935606208, 1e-6),
            (60.0, -2.949899, 3.715521, -0.134213492, 0.802052817, 1e-6),
        ] {
            let state = state(&axle, Demand::new(travel, 0.0));
            let moved = state.position.pose.w - axle.rest().w;
            near(moved.x, dx, digits, "dx");
            near(moved.y, dy, digits, "dy");
            near(read(&state, "steer_deg"), steer, digits, "steer");
            // The book's camber is the spin axis' angle in the yz plane, atan2(−n_z, n_y), not its angle to the road.
            let n = state.attitude.spin;
            near((-n.z).atan2(n.y).to_degrees(), camber, digits, "camber");
        }
    }

    #[test]
    fn steering_axis() {
        let state = state(&axle(), Demand::new(0.0, 0.0));
        for (column, value, digits) in [
            ("kingpin_inclination_deg", 10.518207, 1e-6),
            ("caster_deg", 7.056096, 1e-6),
            ("caster_offset_ground_mm", 30.325552, 1e-6),
            ("scrub_radius_mm", 1.032709, 1e-6),
            ("kingpin_offset_wheel_centre_mm", 57.921824, 1e-6),
            ("caster_offset_wheel_centre_mm", -4.947883, 1e-6),
            ("brake_lever_arm_mm", 1.007920, 1e-6),
            ("drive_lever_arm_mm", 56.531468, 1e-6),
            ("side_lever_arm_mm", 29.597617, 1e-6),
            ("wheel_load_lever_arm_mm", -5.620082, 1e-6),
            ("roll_centre_height_mm", 86.013, 5e-4),
            ("support_angle_brake_deg", 6.841, 5e-4),
            // Two ball joints make the axis and the spring stands on the lower wishbone.
            ("screw_pitch_mm_per_rad", 0.0, 1e-9),
        ] {
            near(read(&state, column), value, digits, column);
        }
    }

    /// With the wheel centre's height held instead of the spring, the screw is another one: why the definition says what is held.
    #[test]
    fn another_thing_held_gives_another_screw() {
        let axle = axle();
        let solved = kernel::solve(&axle, Demand::new(0.0, 0.0), &rest(&axle)).expect("a pose");
        let twist = solved.jacobian.twist(&[0.0, 0.0, 0.0, 0.0, 1.0, 0.0]).expect("regular");
        near(twist.screw().expect("a turn").pitch.abs(), 5.84, 5e-3, "pitch");
    }

    /// Rod forces, N, tension positive, with a vertical support at the wheel centre in place of the spring.
    #[test]
    fn rod_forces() {
        let state = state(&axle(), Demand::new(0.0, 0.0));
        let support = Line::through(Vec3::zeros(), -Vec3::z());
        for (force, rear, front, upper_rear, upper_front, track_rod, up) in [
            ([-3000.0, 0.0, 0.0], -5400.959, 4874.151, 1500.569, -1786.056, -6.228, -360.144),
            ([0.0, 0.0, 4000.0], -16.416, -29.871, 38.943, 23.601, -14.608, 4002.638),
        ] {
            let wrench = Wrench::at(state.attitude.contact, Vec3::from(force));
            let forces = MemberForces::balancing(&wrench, &state.guides, &support).expect("held");
            for (is, should) in forces.rows.into_iter().zip([front, rear, upper_front, upper_rear, track_rod]) {
                near(is, should, 5e-4, "rod");
            }
            near(forces.spring, up, 5e-4, "support");
        }
    }
}

/// A planar strut, P. E. Nikravesh, *Planar Multibody Dynamics*, 2nd ed., CRC Press: inputs published, travel computed with
/// SciPy from them. The book's (x, y) stand in our (y, z) plane; rods and track rod far fore and aft keep the carrier in it.
#[test]
fn planar_strut() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/reference/scipy.json");
    let json: Value = serde_json::from_str(&std::fs::read_to_string(path).expect("the file")).expect("JSON");
    let case = &json["published"]["planar_strut"];
    let axle = linkage(&published("planar_strut"));
    let rest_angle = case["rest_angle_rad"].as_f64().expect("an angle");
    let at_rest = state(&axle, Demand::new(0.0, 0.0));
    for (up, x, angle, length) in [
        (0.2986, 0.582323, 6.048591, 0.257108),
        (0.3286, 0.584088, 6.066161, 0.229179),
        (0.3886, 0.582019, 6.096273, 0.172033),
        (0.4186, 0.578206, 6.108305, 0.142685),
    ] {
        let states = case["states"].as_array().expect("states");
        let expected =
            states.iter().find(|s| (s["frame_y_mm"].as_f64().unwrap_or_default() - 1000.0 * up).abs() < 1e-6);
        let travel = expected.expect("the published state")["travel_mm"].as_f64().expect("travel");
        let now = state(&axle, Demand::new(travel, 0.0));
        near(now.position.pose.w.z / 1000.0, up, 1e-9, "height");
        near(now.position.pose.w.y / 1000.0, x, 5e-7, "x");
        let turned = now.position.pose.r.scaled_axis();
        near(turned.x + rest_angle, angle, 5e-7, "angle");
        near(
            turned.yz().norm() + (now.position.pose.w.x - at_rest.position.pose.w.x).abs(),
            0.0,
            1e-9,
            "out of the plane",
        );
        let foot = axle.spring().foot(&now.position.pose);
        near((foot - axle.spring().top).norm() / 1000.0, length, 5e-7, "strut length");
    }
}

/// K. M. Lynch, F. C. Park, *Modern Robotics*, sec. 3.3 (published, to two decimals): Rz(30°) at (1, 2, 0) to Rz(60°) at
/// (2, 1, 0) is a turn of 30° about z through (3.37, 3.37), pitch 0; unrounded 3.3660254.
#[test]
fn screw_of_a_displacement() {
    let turn = 30.0_f64.to_radians();
    let (from, to) = (Vec3::new(1.0, 2.0, 0.0), Vec3::new(2.0, 1.0, 0.0));
    // The twist (v at the origin, ω) whose exponential is the displacement: v = G⁻¹(θ)·p with p its translation.
    let rotation = UnitQuaternion::from_axis_angle(&Vec3::z_axis(), turn);
    let translation = to - rotation * from;
    let half = turn / 2.0;
    let hat = Vec3::z().cross_matrix();
    let inverse = nalgebra::Matrix3::identity() / turn - hat / 2.0 + (1.0 / turn - 0.5 / half.tan()) * hat * hat;
    let twist = Twist { v: inverse * translation * turn, omega: Vec3::z() * turn };
    let screw = twist.screw().expect("a turn");
    near(screw.a.x, 3.3660254, 5e-8, "x");
    near(screw.a.y, 3.3660254, 5e-8, "y");
    near(screw.pitch, 0.0, 1e-12, "pitch");
}

/// A cubic six-rod platform with unit rod stiffness, T. Dehaeze, after H. Taghirad 2013 (published): K = JᵀJ is diagonal,
/// 2, 2, 2, 0.015, 0.015, 0.06 (m), and a vertical force of 100 puts 28.8675 into each rod.
#[test]
#[allow(clippy::approx_constant, reason = "the digits are the published ones")]
fn cubic_platform() {
    let s = |y: f64| Vec3::new(-0.408248, y, 0.57735);
    let axial = Vec3::new(0.816497, 0.0, 0.57735);
    let joints = [[70.7107, -122.4745, 50.0], [70.7107, 122.4745, 50.0], [-141.4214, 0.0, 50.0]].map(Vec3::from);
    // Which direction stands at which joint is what makes K diagonal; each stands twice, each joint twice.
    let rods = [
        (joints[0], axial),
        (joints[0], s(-0.707107)),
        (joints[1], axial),
        (joints[1], s(0.707107)),
        (joints[2], s(-0.707107)),
        (joints[2], s(0.707107)),
    ];
    let lines = rods.map(|(joint, along)| Line::through(joint / 1000.0, along));
    let jacobian = Matrix6::from_rows(&lines.map(|line| line.row()));
    let stiffness = jacobian.transpose() * jacobian;
    let mut diagonal = stiffness.diagonal();
    for (is, should) in diagonal.iter().zip([2.0, 2.0, 2.0, 0.015, 0.015, 0.06]) {
        near(*is, should, 2e-5, "stiffness");
    }
    diagonal.fill(0.0);
    let mut rest = stiffness;
    rest.set_diagonal(&diagonal);
    near(rest.amax(), 0.0, 2e-5, "off the diagonal");
    // Rods push: compression is negative tension, and the sixth is given as what holds by pushing.
    let [a, b, c, d, e, f] = lines;
    let forces =
        MemberForces::balancing(&Wrench { force: Vec3::z() * -100.0, moment: Vec3::zeros() }, &[a, b, c, d, e], &f);
    let forces = forces.expect("held");
    for tension in forces.rows {
        near(-tension, 28.8675, 1e-3, "rod");
    }
    near(forces.spring, 28.8675, 1e-3, "sixth rod");
}
