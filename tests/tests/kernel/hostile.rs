//! Bad input: never a panic, never NaN, always one sentence that names the part and the amount.
//! Long because each kind of bad input is a case of its own.

use kernel::{
    Axle, Damper, Demand, Drive, Guide, Height, Layout, Linkage, LoadCase, MemberForces, Part, PointId, READINGS,
    Reason, Rod, RodForces, RollFrom, Setting, Snapshot, State, Steering, Unsolved, Vec3, Vehicle, Whole, validate,
};
use proptest::prelude::*;
use tests::{DEMOS, demo, linkage, longer, rest, state};

/// One line, of a length a person reads, with no NaN in it that the person did not put there.
#[track_caller]
fn sentence(text: &str) {
    assert!(text.ends_with('.') && !text.contains('\n') && (20..600).contains(&text.len()), "{text:?}");
}

/// Whatever a layout is: problems in sentences, or a state whose every reading is a number, or a report in a sentence.
fn survives(layout: &Layout, demand: Demand) {
    match Linkage::new(layout) {
        Err(problems) => {
            assert!(!problems.is_empty());
            problems.iter().for_each(|problem| sentence(&problem.to_string()));
        }
        Ok(linkage) => match State::solve(&linkage, demand, &rest(&linkage)) {
            Err(why) => sentence(&why.to_string()),
            Ok(state) => {
                for reading in &READINGS {
                    let value = (reading.value)(&Snapshot::of(&state));
                    assert!(value.is_none_or(f64::is_finite), "{} = {value:?}", reading.column);
                }
                if let Some(forces) = MemberForces::under_road_force(&state, Vec3::new(-3000.0, 500.0, 4000.0)) {
                    assert!(forces.rows.iter().chain([&forces.spring]).all(|force| force.is_finite()));
                }
            }
        },
    }
}

fn hostile_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(f64::NEG_INFINITY),
        Just(1e300),
        Just(-1e300),
        Just(1e-300),
        Just(0.0),
        Just(-0.0),
        Just(f64::MIN_POSITIVE),
        Just(f64::MAX),
        Just(9_999.999),
        Just(10_000.001),
        -10_000.0..10_000.0_f64,
        -1.0..1.0_f64,
        any::<f64>(),
    ]
}

fn hostile_demand() -> impl Strategy<Value = Demand> {
    let height = prop_oneof![
        hostile_number().prop_map(Height::Travel),
        hostile_number().prop_map(Height::SpringLength),
        (-300.0..300.0).prop_map(Height::Travel)
    ];
    let steering = prop_oneof![
        hostile_number().prop_map(Steering::Rack),
        hostile_number().prop_map(Steering::Steer),
        Just(Steering::Rack(0.0))
    ];
    (height, steering).prop_map(|(height, steering)| Demand { height, steering })
}

/// What the numbers of a vehicle and a damper may be, in the order in which the test below takes them.
const VEHICLE: [[f64; 2]; 17] = [
    [500.0, 10_000.0],
    [1.0, 100_000.0],
    [0.01, 0.99],
    [50.0, 5_000.0],
    [0.0, 1.0],
    [0.0, 5_000.0],
    [-10_000.0, 10_000.0],
    [0.0, 1e6],
    [0.0, 1.0],
    [0.05, 1.0],
    [1.0, 10_000.0],
    [1.0, 10_000.0],
    [1.0, 1_000.0],
    [0.0, 1.0],
    [0.0, 10_000.0],
    [0.0, 10_000.0],
    [-200.0, 200.0],
];

proptest! {
    #![proptest_config(tests::cases(1_000))]

    /// One to three coordinates of a demo are anything at all.
    #[test]
    fn any_coordinate(index in 0..DEMOS.len(), changes in prop::collection::vec((0..25_usize, 0..3_usize, hostile_number()), 1..4), demand in hostile_demand()) {
        let mut layout = demo(DEMOS[index]);
        for (point, axis, value) in changes {
            if let Some(point) = layout.point_mut(PointId::ALL[point].0) {
                point[axis] = value;
            }
        }
        survives(&layout, demand);
    }

    /// All coordinates are anything within the limits.
    #[test]
    fn all_coordinates(index in 0..DEMOS.len(), values in prop::collection::vec(-1_000.0..1_000.0_f64, 75), demand in hostile_demand()) {
        let mut layout = demo(DEMOS[index]);
        for (i, (id, ..)) in PointId::ALL.iter().enumerate() {
            if let Some(point) = layout.point_mut(*id) {
                *point = Vec3::new(values[3 * i], values[3 * i + 1].abs(), values[3 * i + 2]);
            }
        }
        survives(&layout, demand);
    }

    /// One joint lies on another.
    #[test]
    fn coincident_joints(index in 0..DEMOS.len(), a in 0..25_usize, b in 0..25_usize, demand in hostile_demand()) {
        let mut layout = demo(DEMOS[index]);
        if let (Some(from), Some(to)) = (layout.point(PointId::ALL[a].0), layout.point_mut(PointId::ALL[b].0)) {
            *to = from;
        }
        survives(&layout, demand);
    }

    /// A wheel of any size and attitude.
    #[test]
    fn any_wheel(values in prop::collection::vec(hostile_number(), 6), demand in hostile_demand()) {
        let mut layout = demo("four-arm");
        let wheel = &mut layout.wheel;
        [wheel.camber, wheel.toe, wheel.loaded_radius, wheel.free_radius, wheel.width, layout.spring.rate] =
            [values[0], values[1], values[2], values[3], values[4], values[5]];
        survives(&layout, demand);
    }

    /// A vehicle and a damper of any size: never a panic, no axle of an unsound one, and no load of a sound one is anything but a number.
    #[test]
    fn any_vehicle(v in prop::collection::vec(0.0..1.0_f64, 17), odd in 0..34_usize, by in hostile_number()) {
        let mut v: Vec<f64> = v.iter().zip(VEHICLE).map(|(part, [least, most])| least + part * (most - least)).collect();
        if let Some(number) = v.get_mut(odd) {
            *number = by;
        }
        let mut layout = demo("strut");
        layout.vehicle = Some(Vehicle {
            wheelbase: v[0], mass: v[1], front_share: v[2], cg_height: v[3], brake_share: v[4], unsprung_mass: v[5],
            rear_roll_centre: v[6], roll_stiffness: v[7], roll_stiffness_share: v[8], drive: Drive::All, steering_efficiency: v[9],
            width: v[14],
            front_overhang: v[15],
            roll_stiffness_from: RollFrom::Axle,
            pneumatic_trail: v[16],
        });
        layout.damper = Some(Damper { guide: v[10], piston: v[11], rod: v[12], friction: v[13] });
        let axle = Axle::new(&layout);
        prop_assert_eq!(axle.is_ok(), validate(&layout).is_empty());
        let Ok(axle) = axle.map(std::rc::Rc::new) else { return Ok(()) };
        let state = axle.stands();
        for case in LoadCase::all() {
            let Ok(load) = case.load(&Setting::of(&axle)) else { continue };
            let forces = MemberForces::balancing(&load.wrench(state), &state.guides, &state.spring);
            let rod = forces.and_then(|forces| RodForces::of(axle.linkage(), state, &forces, &layout.damper()));
            prop_assert!(load.road.iter().all(|n| n.is_finite()) && load.aligning.is_finite());
            prop_assert!(rod.is_none_or(|rod| rod.stress.is_finite()));
        }
        let whole = Whole::standing(&axle).expect("it stands");
        for reading in &READINGS {
            prop_assert!((reading.value)(&Snapshot::both(&whole)).is_none_or(f64::is_finite), "{}", reading.column);
        }
    }

    /// A file with one stretch of it replaced.
    #[test]
    fn damaged_files(index in 0..DEMOS.len(), at in 0.0..1.0_f64, length in 0..40_usize, with in ".{0,12}") {
        let text = demo(DEMOS[index]).to_json();
        let mut letters: Vec<char> = text.chars().collect();
        let start = ((letters.len() - 1) as f64 * at) as usize;
        let end = (start + length).min(letters.len());
        letters.splice(start..end, with.chars());
        match Layout::from_json(&letters.into_iter().collect::<String>()) {
            Err(text) => prop_assert!(text.ends_with('.')),
            Ok(layout) => survives(&layout, Demand::new(10.0, 0.0)),
        }
    }

    #[test]
    fn files_that_are_none(text in ".{0,200}") {
        if let Err(text) = Layout::from_json(&text) {
            prop_assert!(text.starts_with("This is not a layout file"));
        }
    }
}

#[test]
fn huge_and_deep_files_are_refused() {
    let huge = " ".repeat(50_000_000);
    let said = Layout::from_json(&huge).expect_err("50 MB are no layout");
    assert_eq!(said, "This file is 50000 kB. Layout files are a few kB; files over 200 kB are not read.");
    assert!(Layout::from_json(&"[".repeat(190_000)).is_err());
    assert!(Layout::from_json(&"{\"a\":".repeat(30_000)).is_err());
}

/// A file that does not parse says how and where; a key that appears twice is named.
#[test]
fn a_file_that_is_no_json_says_how_and_where() {
    let text =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../demo-layouts/strut.json")).expect("a demo");
    let said = |text: &str| Layout::from_json(text).expect_err("no layout");
    assert_eq!(said("{\n  \"layout\": 1,"), "This is not a layout file: the file ends too early (line 2, column 14).");
    assert_eq!(said("{\n  layout: 1\n}"), "This is not a layout file: it is not valid JSON (line 2, column 3).");
    let twice = text.replacen("\"camber\": -0.5", "\"camber\": -0.5, \"camber\": 30", 1);
    assert!(
        said(&twice)
            .starts_with("This is not a layout file: “camber” appears twice in the same object (line 5, column"),
        "{}",
        said(&twice)
    );
}

fn problem(change: impl FnOnce(&mut Layout)) -> Vec<String> {
    let mut layout = demo("double-wishbone");
    change(&mut layout);
    validate(&layout).iter().map(ToString::to_string).collect()
}

/// Every problem is listed, each in a sentence that names the part and the amount.
#[test]
fn problems_name_the_part_and_the_amount() {
    let cases: [(&str, Vec<String>); 12] = [
        (
            "The x coordinate of “spring top” is NaN; it must be a number between −10000 and 10000 mm.",
            problem(|l| l.spring.top = Some(Vec3::new(f64::NAN, 0.0, 0.0))),
        ),
        ("The y coordinate of “track rod, outer joint” is 69000;", problem(|l| l.track_rod.outer.y = 69_000.0)),
        ("The two ends of the track rod are 0.000 mm apart", problem(|l| l.track_rod.outer = l.track_rod.inner)),
        (
            "The two ends of the lower wishbone are 0.000 mm apart",
            problem(|l| {
                if let Guide::Wishbone { front, rear, .. } = &mut l.lower {
                    *rear = *front
                }
            }),
        ),
        (
            "The ball joint of the upper wishbone lies 0.000 mm from the axis",
            problem(|l| {
                if let Guide::Wishbone { front, rear, outer } = &mut l.upper {
                    *outer = (*front + *rear) / 2.0
                }
            }),
        ),
        ("The wheel centre is at y = -765 mm", problem(|l| l.wheel.centre.y = -765.0)),
        (
            "The spring is mounted on “strut”, which this axle does not have.",
            problem(|l| l.spring.on = kernel::SpringOn::Strut),
        ),
        (
            "The file has “wings”, which",
            problem(|l| {
                l.other.insert("wings".into(), serde_json::Value::Null);
            }),
        ),
        ("The file says layout format 7;", problem(|l| l.version = 7)),
        (
            "The file has “0”, “1”, “10” and 4997 more, which",
            problem(|l| l.other.extend((0..5000).map(|i| (i.to_string(), serde_json::Value::Null)))),
        ),
        ("The x coordinate of “spring top” is 1e300; it", problem(|l| l.spring.top = Some(Vec3::new(1e300, 0.0, 0.0)))),
        (
            "The lower guide is a strut; a strut can only be the upper guide.",
            problem(|l| {
                l.lower = Guide::Strut { top: Vec3::new(0.0, 600.0, 800.0), foot: Vec3::new(0.0, 640.0, 300.0) }
            }),
        ),
    ];
    for (expected, said) in cases {
        assert!(said.iter().any(|sentence| sentence.starts_with(expected)), "{expected}: {said:?}");
        said.iter().for_each(|text| sentence(text));
    }
    let all = problem(|l| {
        l.track_rod.outer.y = f64::INFINITY;
        l.wheel.loaded_radius = -1.0;
        l.version = 2;
    });
    assert_eq!(all.len(), 3, "{all:?}");
}

/// A track rod that ends on the steering axis leaves the wheel free to turn about it: travel then turns the wheel, and nothing carries it.
#[test]
fn a_spring_that_carries_nothing_is_said() {
    let mut layout = demo("double-wishbone");
    let (Guide::Wishbone { outer: low, .. }, Guide::Wishbone { outer: high, .. }) = (&layout.lower, &layout.upper)
    else {
        panic!("two wishbones")
    };
    for part in [0.0, 0.3, 1.0] {
        layout.track_rod.outer = low + (high - low) * part;
        let problems = Linkage::new(&layout).expect_err("nothing steers it");
        assert!(problems.len() == 1 && problems[0].to_string().contains("lies on the steering axis"), "{problems:?}");
    }
    let mut layout = demo("four-arm");
    // Level across the arm's end, the spring's line is square to the movement.
    layout.spring.on = kernel::SpringOn::Carrier;
    let bump = state(&linkage(&demo("four-arm")), Demand::new(0.0, 0.0)).bump.twist;
    let foot = layout.wheel.centre;
    layout.spring.foot = Some(foot);
    layout.spring.top = Some(foot + bump.v.cross(&Vec3::x()).normalize() * 300.0);
    assert!(Linkage::new(&layout).is_err());
}

fn fails(layout: &Layout, demand: Demand) -> Unsolved {
    let linkage = linkage(layout);
    State::solve(&linkage, demand, &rest(&linkage)).expect_err(&format!("{} reaches {demand}", layout.name))
}

/// The report's nearest travel does work, and the named member's amount is what it lacks: lengthened by it, it reaches.
#[test]
fn what_cannot_be_reached_says_member_amount_and_nearest() {
    for (name, demand) in [
        ("four-arm", Demand::new(300.0, 0.0)),
        ("four-arm", Demand::new(0.0, 125.0)),
        ("double-wishbone", Demand::new(340.0, 0.0)),
        ("double-wishbone", Demand::new(0.0, -90.0)),
        ("wishbone-over-arms", Demand::new(-300.0, 10.0)),
    ] {
        let layout = demo(name);
        let why = fails(&layout, demand);
        sentence(&why.to_string());
        state(&linkage(&layout), why.nearest);
        let Reason::CannotReach(part, by) = why.reason else { panic!("{name}: {why}") };
        assert!(
            why.to_string().contains(part.name()) && why.to_string().contains(&format!("{:.1} mm", by.abs())),
            "{why}"
        );
        // Changed by a little more than that, a rod reaches; a wishbone's legs change by different amounts.
        if [Part::LowerWishbone, Part::UpperWishbone].contains(&part) {
            continue;
        }
        let sound = linkage(&layout);
        let member = sound.rows().iter().find(|row| row.part == part).expect("a row").member;
        let mended = longer(&layout, &sound, member, 1.02 * by + 0.1 * by.signum());
        assert!(State::solve(&mended, demand, &why.position).is_ok(), "{name}: {why}");
    }
}

/// At the edge of reach, however near: what lacks is never printed as nothing, and what is printed as the nearest does work.
#[test]
fn at_the_edge_of_reach_no_amount_is_nothing() {
    let number = |text: &str, before: &str| -> f64 {
        let from = text.find(before).unwrap_or_else(|| panic!("no “{before}”: {text}")) + before.len();
        text[from..].split(' ').next().and_then(|word| word.parse().ok()).unwrap_or_else(|| panic!("{text}"))
    };
    for name in DEMOS {
        let layout = demo(name);
        let axle = linkage(&layout);
        for far in [-400.0, 400.0] {
            let Height::Travel(edge) = fails(&layout, Demand::new(far, 0.0)).nearest.height else { panic!("a travel") };
            for beyond in [1e-4, 2e-3, 0.01, 0.04, 0.3, 5.0] {
                let asked = edge + beyond * edge.signum();
                let Err(why) = State::solve(&axle, Demand::new(asked, 0.0), &rest(&axle)) else { continue };
                let said = why.to_string();
                sentence(&said);
                let amount = [" too short", " too long", " short of what was asked", "mount by "];
                assert!(amount.iter().any(|words| said.contains(words)), "{name}: {said}");
                for nothing in [" 0.0 mm", " 0.00 mm", " 0.000 mm"] {
                    assert!(!said.contains(nothing), "{name}: {said}");
                }
                assert!((number(&said, "ravel ") - asked).abs() < 6e-4, "{name}: {asked} in {said}");
                state(&axle, Demand::new(number(&said, "works is travel "), 0.0));
            }
        }
    }
}

/// Where every member could reach but the way there leads through a position that holds nothing, that is said.
#[test]
fn a_barred_way_names_who_comes_into_line() {
    for (name, travel) in [("four-arm", -320.0), ("five-rod-unsteered", 400.0)] {
        let layout = demo(name);
        let why = fails(&layout, Demand::new(travel, 0.0));
        sentence(&why.to_string());
        state(&linkage(&layout), why.nearest);
        assert!(matches!(&why.reason, Reason::Singular(members) if members.len() >= 2), "{why}");
        assert!(why.to_string().ends_with(" mm short of what was asked."), "{why}");
    }
}

#[test]
fn a_strut_says_how_far_it_misses_its_mount() {
    let why = fails(&demo("strut"), Demand::new(-400.0, 0.0)).to_string();
    assert!(why.contains("strut’s line misses its top mount by"), "{why}");
}

/// Arms in line: the two lower arms on one line hold the carrier against only one thing.
#[test]
fn arms_in_line_are_singular_by_name() {
    let mut layout = demo("four-arm");
    if let Guide::Arms { front, rear } = &mut layout.lower {
        *rear = Rod { inner: front.inner, outer: front.outer };
    }
    let why = fails(&layout, Demand::new(5.0, 0.0)).to_string();
    assert!(
        why.starts_with("Already at rest, ") && why.contains("lower front arm") && why.contains("lower rear arm"),
        "{why}"
    );
    assert!(!why.contains("upper"), "{why}");
}

/// A guess on the other assembly branch, the track rod over its dead centre, is not taken for an answer, though it closes and
/// meets the demand: what is asked for is found on the branch of the layout, or not at all.
#[test]
fn a_guess_on_another_branch_is_not_believed() {
    let layout = demo("double-wishbone");
    let axle = linkage(&layout);
    let [lower, upper] = [PointId::LowerOuter, PointId::UpperOuter]
        .map(|id| layout.point(id).expect("a ball joint") - layout.wheel.centre);
    let kingpin = nalgebra::Unit::new_normalize(upper - lower);
    // The carrier turned about its two ball joints: only the track rod's length changes.
    let turned = |angle: f64| {
        let r = kernel::Rotation::from_axis_angle(&kingpin, angle);
        kernel::Pose { w: layout.wheel.centre + lower - r * lower, r }
    };
    let misfit = |angle: f64| axle.guides(&turned(angle), 0.0).0[kernel::TRACK_ROD];
    // Beyond the dead centre the rod fits once more; the sign of the misfit changes there.
    let (mut from, mut to) = (0.5, 0.6);
    while misfit(from) * misfit(to) > 0.0 {
        (from, to) = (to, to + 0.1);
        assert!(to < 6.0, "the rod never fits again");
    }
    for _ in 0..80 {
        let middle = f64::midpoint(from, to);
        if misfit(from) * misfit(middle) > 0.0 { from = middle } else { to = middle }
    }
    let guess = kernel::Position { pose: turned(from), rack: 0.0 };
    let (residuals, _) = axle.guides(&guess.pose, 0.0);
    assert!(residuals.iter().all(|r| r.abs() < 1e-9), "the other branch closes: {residuals:?}");
    let travel = guess.pose.w.z - layout.wheel.centre.z;
    let found = kernel::solve(&axle, Demand::new(travel, 0.0), &guess).expect("the layout's own branch goes there too");
    assert!((found.position.pose.w - guess.pose.w).norm() > 1.0, "the guess was taken for the answer");
}

#[test]
fn an_unsteered_axle_is_not_steered() {
    for demand in [Demand::new(0.0, 5.0), Demand { height: Height::Travel(0.0), steering: Steering::Steer(5.0) }] {
        let why = fails(&demo("five-rod-unsteered"), demand).to_string();
        assert!(why.contains("no rack"), "{why}");
    }
}
