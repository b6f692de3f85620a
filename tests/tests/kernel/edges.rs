//! Where loads, both wheels and turning go beyond one wheel in a plain state, against a witness from first principles: free bodies, virtual
//! work, energies and differences of states solved by SciPy (`tests/reference/edges_reference.py`; computed, no published source).
//! Long because each reading has its own witness.

use kernel::{
    Axle, AxleState, Demand, HalfShaft, Layout, Linkage, Load, LoadCase, NoLoad, Place, RollFrom, SEAT, Setting,
    SideFreeSpring, Springing, Stance, State, Statics, SteeringMoment, Turn, Vec3, Vehicle, Whole, frequency, lift,
    support, turning_friction,
};
use serde_json::Value;
use std::rc::Rc;
use tests::{DEMOS, axle, demo, linkage, near, state};

fn reference() -> Value {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/reference/edges.json");
    serde_json::from_str(&std::fs::read_to_string(file).expect("the file")).expect("JSON")
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn vector(value: &Value) -> Vec3 {
    Vec3::new(number(&value[0]), number(&value[1]), number(&value[2]))
}

/// The entries of a list, each with its demo and what it is called in a failure.
fn entries(reference: &Value, list: &str) -> Vec<(Layout, Linkage, Value, String)> {
    let entry = |at: &Value| {
        let mut layout =
            Layout::from_value(&reference["layouts"][at["layout"].as_str().expect("a name")]).expect("a layout");
        layout.half_shaft = at["inner"].is_array().then(|| HalfShaft {
            inner: vector(&at["inner"]),
            outer: vector(&at["outer"]),
            right_inner_y: None,
        });
        let what = ["layout", "travel_mm", "roll_deg", "rack_mm", "brake_n"].map(|key| at[key].to_string()).join(" ");
        (layout.clone(), linkage(&layout), at.clone(), format!("{list}: {what}"))
    };
    let entries: Vec<_> = reference[list].as_array().expect("a list").iter().map(entry).collect();
    assert!(entries.len() > 5);
    entries
}

fn standing() -> Load {
    Load::braking(&Vehicle::default(), 0.0)
}

/// The spring about the top mount that takes the side force off, and put back into the axle it does.
#[test]
fn a_side_free_spring_is_tilted_about_the_top_mount() {
    for (layout, linkage, at, what) in entries(&reference(), "side_free") {
        let state = state(&linkage, Demand::new(number(&at["travel_mm"]), number(&at["rack_mm"])));
        let mut load = standing();
        load.road.x = -number(&at["brake_n"]);
        let spring = SideFreeSpring::of(&linkage, &state, &load.wrench(&state)).expect("a line");
        near(spring.tilt(), number(&at["tilt_deg"]), 1e-7, &what);
        near(spring.force, number(&at["force_n"]), 1e-5, &what);
        let offset = spring.seat_offset(SEAT).expect("a seat");
        near((offset - vector(&at["offset_mm"])).norm(), 0.0, 1e-6, &what);
        if at["travel_mm"] == 0.0 || at["travel_mm"] == 0 {
            let mut tilted = layout.clone();
            let top = state.position.pose.w + spring.top;
            (tilted.spring.top, tilted.spring.foot) = (Some(top), Some(top + spring.strut * SEAT + offset));
            let linkage = tests::linkage(&tilted);
            let state = tests::state(&linkage, Demand::new(0.0, 0.0));
            let members = Statics::at(&state).members(&load.wrench(&state)).expect("held");
            near(members.strut_side(&linkage).expect("a strut"), 0.0, 1e-6, &format!("{what}: side force"));
        }
    }
}

fn whole(layout: &Layout, [roll, travel, rack]: [f64; 3]) -> Whole {
    let axle = Rc::new(axle(layout));
    Whole::at(&axle, Stance { roll, travel, rack }, &axle.at_rest()).expect("a position")
}

/// Roll stiffness and frequency from both wheels; at rest the energy of both springs agrees, but for the contact point's rise (see the script).
#[test]
fn roll_stiffness_is_both_wheels() {
    for (layout, _, at, what) in entries(&reference(), "roll") {
        let whole = whole(&layout, [number(&at["roll_deg"]), 0.0, 0.0]);
        let stiffness = whole.roll_stiffness().expect("it carries").springs;
        near(stiffness / number(&at["roll_stiffness"]), 1.0, 2e-6, &what);
        near(whole.frequency().expect("it carries") / number(&at["ride_frequency"]), 1.0, 1e-6, &what);
        if let Some(energy) = at["energy"].as_f64() {
            near(stiffness / energy, number(&at["contact_rise"][0]).powi(2), 1e-6, &format!("{what}: energy"));
        }
    }
}

/// Anti-dive and anti-lift from both wheels, each with its force along its own heading.
#[test]
fn support_is_both_wheels() {
    let vehicle = Vehicle::default();
    for (layout, _, at, what) in entries(&reference(), "support") {
        let whole = whole(&layout, [number(&at["roll_deg"]), 0.0, number(&at["rack_mm"])]);
        let supports =
            [("outboard", whole.anti_dive()), ("drive", whole.anti_lift()), ("inboard", whole.anti_dive_inboard())];
        for (key, percent) in supports {
            let percent = percent.expect("it rises");
            near(percent, number(&at[key]["percent"]), 1e-6 * percent.abs().max(1.0), &format!("{what}: {key}"));
        }
        let tangent = whole.axle.carried(Place::Road).expect("it rises");
        near(support(vehicle.brake_share, tangent, &vehicle), whole.anti_dive().expect("it rises"), 1e-12, &what);
    }
}

/// The same axle, roll and rack with their signs turned, has the same numbers, with every part that can differ from side to side.
#[test]
fn the_whole_axle_obeys_the_mirror() {
    for name in DEMOS {
        let mut layout = demo(name);
        layout.anti_roll_bar = Some(kernel::AntiRollBar::usual(&layout));
        let rack = if layout.rack.is_some() { 50.0 } else { 0.0 };
        for (roll, travel, rack) in [(3.0, 0.0, 0.0), (5.0, 20.0, 0.0), (0.0, 0.0, rack), (2.0, -15.0, rack)] {
            let [a, b] = [1.0, -1.0].map(|sign| whole(&layout, [sign * roll, travel, sign * rack]));
            let same = |what: &str, read: fn(&Whole) -> Option<f64>| {
                let (a, b) = (read(&a).expect("a number"), read(&b).expect("a number"));
                near(a, b, 1e-7 * a.abs().max(1.0), &format!("{name} {what} at roll {roll}, rack {rack}"));
            };
            same("roll stiffness", |w| w.roll_stiffness().map(|stiffness| stiffness.springs));
            same("bar", |w| w.roll_stiffness().map(|stiffness| stiffness.bar));
            same("frequency", |w| w.frequency());
            same("anti-dive", Whole::anti_dive);
            same("anti-dive, inboard", Whole::anti_dive_inboard);
            same("anti-lift", Whole::anti_lift);
        }
    }
}

/// Driving with a half-shaft, by virtual work through both homokinetic joints: the spring, and the steering moment through the rack.
#[test]
fn a_driven_wheel_in_lock_feels_the_shafts_radial_force() {
    for (_, linkage, at, what) in entries(&reference(), "half_shaft") {
        let state = state(&linkage, Demand::new(number(&at["travel_mm"]), number(&at["rack_mm"])));
        let drive = Load {
            centre: Vec3::x() * number(&at["force_n"]),
            drive_torque: number(&at["torque_nmm"]),
            ..Load::default()
        };
        let work = drive.wrench(&state).power(&state.bump.twist);
        near(work, number(&at["work_per_bump_n"]), 1e-4, &format!("{what}: per bump"));
        let axis = state.axis.expect("steered");
        let work = drive.wrench(&state).power(&axis.twist) * axis.turn_per_rack;
        near(work, number(&at["work_per_rack_n"]), 1e-4, &format!("{what}: per rack"));
        let load = Load { road: standing().road, weight: standing().weight, ..drive };
        let members = Statics::at(&state).members(&load.wrench(&state)).expect("held");
        near(members.spring, number(&at["spring_n"]), 1e-3, &format!("{what}: spring"));
        let moment = SteeringMoment::of(&load, &state).expect("steered");
        near(moment.total(), load.wrench(&state).power(&axis.twist), 1e-6, &format!("{what}: the shares add up"));
    }
}

/// What the standing loads turn about the steering axes, from the fall of contact points and wheel centres; and Loads shows the same.
#[test]
fn the_self_centring_moment_leaves_out_the_wheels_own_weight() {
    for (layout, linkage, at, what) in entries(&reference(), "righting") {
        let rack = number(&at["rack_mm"]);
        let rest = state(&linkage, Demand::new(0.0, 0.0));
        let height = kernel::Height::SpringLength(rest.spring_length);
        let total: f64 = [rack, -rack]
            .map(|rack| {
                let demand = Demand { height, steering: kernel::Steering::Rack(rack) };
                let state = State::solve(&linkage, demand, &tests::rest(&linkage)).expect("a position");
                SteeringMoment::of(&standing(), &state).expect("steered").total()
            })
            .iter()
            .zip([1.0, -1.0])
            .map(|(moment, sign)| sign * moment / 1000.0)
            .sum();
        near(total, number(&at["righting_nm"]), 1e-5 * total.abs().max(1.0), &what);
        // The reading, at the travels that the steered axle has then, is the same two moments.
        let whole = whole(&layout, [0.0, 0.0, rack]);
        let sides =
            whole.axle.sides.each_ref().map(|side| SteeringMoment::of(&standing(), &side.state).expect("steered"));
        near(whole.self_centring().expect("steered"), sides[0].total() - sides[1].total(), 1e-9, &what);
    }
}

/// Turning, its circles and what steering lifts, where the car stands.
#[test]
fn turning_is_read_where_the_car_stands() {
    let vehicle = Vehicle::default();
    for (layout, _, at, what) in entries(&reference(), "turning") {
        let (travel, rack) = (number(&at["travel_mm"]), number(&at["rack_mm"]));
        let axle = Rc::new(Axle::standing_at(&layout, travel).expect("an axle"));
        let turn = Turn::at(&axle, rack).expect("it turns");
        near(turn.inner, number(&at["inner_deg"]), 1e-8, &what);
        near(turn.outer, number(&at["outer_deg"]), 1e-8, &what);
        near(100.0 * turn.ackermann.expect("it turns"), number(&at["ackermann_percent"]), 1e-5, &what);
        // The witness leaves the road level; here it leans under both wheels, which moves a contact point by some 2 µm. It takes the tyre's
        // width along the unit direction in plan, the kernel along the spin axis: camber's cosine of half a width.
        let circles = [(0.0, "kerb_radius_middle_m", 1e-5), (layout.wheel.width, "kerb_radius_edge_m", 2e-4)];
        for (width, key, tolerance) in circles {
            near(turn.kerb_radius(&vehicle, width).expect("it turns") / 1000.0, number(&at[key]), tolerance, &what);
        }
        if at["lift_mm"].is_array() {
            for (i, lifted) in lift(&axle, rack).expect("it turns").into_iter().enumerate() {
                near(lifted, number(&at["lift_mm"][i]), 1e-7, &format!("{what}: lift"));
            }
        }
        let elsewhere = Stance { travel: 10.0, rack, ..Stance::default() };
        let read = Whole::at(&axle, elsewhere, &axle.at_rest()).expect("a position");
        near(
            100.0 * read.turn().expect("it turns").ackermann.expect("it turns"),
            number(&at["ackermann_percent"]),
            1e-5,
            &what,
        );
    }
}

/// Hands: positive to the left whichever side the rack is on; friction helps to hold and hinders turning; both do the rack's work without it.
#[test]
fn hands_turn_left_whichever_side_the_rack_is_on() {
    for name in ["strut", "wishbone-over-arms"] {
        let layout = demo(name);
        let linkage = linkage(&layout);
        let at = state(&linkage, Demand::new(0.0, 0.0));
        let (rack, vehicle) = (layout.rack.clone().expect("a rack"), layout.vehicle());
        // The road turns the wheel to the right; the hands have to turn left.
        let load = Load { aligning: -1e5, ..Load::default() };
        let moment = SteeringMoment::of(&load, &at).expect("steered");
        assert!(moment.total() < 0.0);
        let hands = moment.hands(&rack, &vehicle);
        assert!(hands.hold > 0.0 && hands.turn > hands.hold, "{name}: {hands:?}");
        let smooth = moment.rack_force.abs() * rack.per_turn / std::f64::consts::TAU;
        near((hands.hold * hands.turn).sqrt(), smooth, 1e-9 * smooth, name);
        near(hands.hold / hands.turn, vehicle.steering_efficiency.powi(2), 1e-12, name);
    }
}

fn setting(vehicle: Vehicle) -> Setting {
    let mut layout = demo("strut");
    layout.vehicle = Some(vehicle);
    layout.anti_roll_bar = Some(kernel::AntiRollBar::usual(&layout));
    Setting::of(&axle(&layout))
}

fn load(key: &str, vehicle: Vehicle) -> Result<Load, NoLoad> {
    LoadCase::named(key).expect("a case").load(&setting(vehicle))
}

/// With the axle's own springs and bar an axle is stiffer in roll: more load transfers in front, by the book's formula with that stiffness.
#[test]
fn cases_can_use_the_axles_own_roll_stiffness() {
    let own = Vehicle { roll_stiffness_from: RollFrom::Axle, ..Vehicle::default() };
    let stiffness = setting(own).front_stiffness;
    assert!(stiffness > 1000.0 && setting(Vehicle::default()).front_stiffness == 600.0);
    let typed =
        Vehicle { roll_stiffness: stiffness + 400.0, roll_stiffness_share: stiffness / (stiffness + 400.0), ..own };
    let typed = load("outer", Vehicle { roll_stiffness_from: RollFrom::Numbers, ..typed }).expect("sound");
    near(load("outer", own).expect("sound").road.z, typed.road.z, 1e-9, "the same stiffness typed");
    assert!(typed.road.z > load("outer", Vehicle::default()).expect("sound").road.z + 100.0);
}

/// A body that falls over and wheels heavier than the axle get a sentence and no number.
#[test]
fn impossible_vehicles_have_no_load() {
    let soft = Vehicle { roll_stiffness: 100.0, ..Vehicle::default() };
    let why = load("outer", soft).expect_err("it falls over").to_string();
    assert!(why.contains("roll stiffness of 100 N·m/°") && why.contains("falls over"), "{why}");
    assert!(load("braking", soft).is_ok());
    let light = Vehicle { mass: 120.0, ..Vehicle::default() };
    for case in LoadCase::all() {
        let why = load(case.key, light).expect_err("nothing is sprung").to_string();
        assert!(why.contains("80 kg") && why.contains("72 kg"), "{why}");
    }
    let mut layout = demo("strut");
    layout.vehicle = Some(light);
    assert_eq!(Springing::of(&axle(&layout)), None);
    let whole = whole(&layout, [0.0; 3]);
    assert!(whole.rates()[0].is_none() && whole.frequency().is_none() && whole.roll_stiffness().is_none());
    assert_eq!(frequency(-3.0, 400.0), None);
}

/// Worked by hand for the default car, m g = 14 710 N: at 0.8 g the front needs 0.77·0.8/(0.6 + 0.16604) = 0.8041, the rear
/// 0.23·0.8/(0.4 − 0.16604) = 0.7865, near each other, so that the default share is near the ideal one, 0.6 + 0.16604 = 0.766. A tall car with half
/// its weight in front asks more in drive than a road has: 0.2/(0.25 − 0.4·900/2650/2) = 1.098.
#[test]
fn friction_that_no_road_has_is_said() {
    let vehicle = Vehicle::default();
    let braking = load("braking", vehicle).expect("sound");
    near(braking.friction().expect("on the road"), 0.8041, 0.0001, "front");
    near(vehicle.rear_friction([0.8, 0.0]).expect("on the road"), 0.7865, 0.0001, "rear");
    let case = |key| LoadCase::named(key).expect("a case");
    assert_eq!(case("braking").friction_missing(&setting(vehicle), &braking), [None, None]);
    let old = Vehicle { brake_share: 0.7, ..vehicle };
    let [front, rear] = case("braking").friction_missing(&setting(old), &load("braking", old).expect("sound"));
    assert!(front.is_none());
    near(rear.expect("too much"), 1.0258, 0.0001, "0.3·0.8/0.23396");
    let tall = Vehicle { cg_height: 900.0, front_share: 0.5, ..vehicle };
    let driving = load("driving", tall).expect("sound");
    let [front, _] = case("driving").friction_missing(&setting(tall), &driving);
    near(front.expect("too much"), 0.2 / (0.25 - 0.4 * 900.0 / 2650.0 / 2.0), 1e-9, "driving");
    assert!(vehicle.rear_friction([2.0, 0.0]).is_none(), "the rear wheels are in the air");
    for key in ["outer", "outer-hard"] {
        assert_eq!(
            case(key).friction_missing(&setting(vehicle), &load(key, vehicle).expect("sound")),
            [None, None],
            "{key}"
        );
    }
    assert!(case("kerb").friction_missing(&setting(vehicle), &load("kerb", vehicle).expect("sound"))[0].is_none());
}

/// No braking beyond what lifts the rear wheels, 0.4·2650/550 = 1.93 g here, nor beyond a tyre.
#[test]
fn braking_is_bounded_by_the_car() {
    near(Vehicle::default().most_braking(), 1.3, 0.0, "by the tyre");
    let tall = Vehicle { cg_height: 1000.0, ..Vehicle::default() };
    near(tall.most_braking(), 1.06, 1e-12, "0.4·2.65");
}

/// In braking the wheel that lifts in the bend gives at most what braking has put on it.
#[test]
fn the_inner_wheel_gives_all_that_it_has() {
    let soft = Vehicle { roll_stiffness: 150.0, roll_stiffness_share: 0.99, ..Vehicle::default() };
    let v = soft;
    let straight = v.mass * 9.80665 * (v.front_share + 0.5 * v.cg_height / v.wheelbase) / 2.0;
    let bend = load("bend", soft).expect("it holds").road.z;
    assert!(bend > straight + v.standing(), "more than the standing load goes over: {bend}");
    near(bend, 2.0 * straight, 1e-9, "all of it");
}

/// A side force behind the contact point turns the wheel back to it: force × trail, in every bend; and a tyre turned on the spot resists
/// with ⅔ µ F R: µ 0.8, 4.0 kN and R 70 mm give 149 N·m (computed; the patch that carries 4 kN with 0.25 N/mm² has R 71.4 mm).
#[test]
fn tyres_have_moments_of_their_own() {
    let trail = Vehicle { pneumatic_trail: 25.0, ..Vehicle::default() };
    for (key, sign) in [("outer", 1.0), ("inner", -1.0), ("bend", 1.0)] {
        let load = load(key, trail).expect("sound");
        near(load.aligning, -25.0 * load.road.y, 1e-9, key);
        // A right-hand bend pushes the outer left wheel to the right, ahead of which the trail turns it to the left.
        assert!(sign * load.aligning > 0.0, "{key}");
    }
    near(turning_friction(4000.0), 149_333.0 * 71.365 / 70.0, 10.0, "N·mm");
    let spot = load("standstill", Vehicle::default()).expect("sound");
    near(spot.aligning, -turning_friction(spot.road.z), 1e-9, "against a turn to the left");
}

/// A roll axis through both wheels: an unrolled axle's supports are those of one wheel.
#[test]
fn unrolled_support_is_the_support_angles() {
    for name in DEMOS {
        let axle = axle(&demo(name));
        let axle = AxleState::rolled(&axle, Stance { travel: 10.0, ..Stance::default() }, &axle.at_rest())
            .expect("a position");
        let angle = axle.sides[0].state.bump.support_brake;
        // But for toe: the support angle is taken along the car.
        near(axle.carried(Place::Road).expect("it rises"), angle.to_radians().tan(), 0.002, name);
    }
}

/// Wheels that point to different sides turn about no centre: toe-in of a degree, rack at 0, is no tight circle.
#[test]
fn wheels_that_point_apart_drive_no_circle() {
    let mut layout = demo("strut");
    layout.wheel.toe = 1.0;
    let turn = Turn::at(&axle(&layout), 0.0).expect("a position");
    assert_eq!((turn.centre(), turn.kerb_radius(&layout.vehicle(), layout.wheel.width)), (None, None));
}

/// A rear axle lighter than its wheels, a stiffness of nothing under a low body, a bar that can't reach: no NaN, no number from elsewhere.
#[test]
fn odd_vehicles_and_bars_have_no_wrong_number() {
    let rear = Vehicle { front_share: 0.9, unsprung_mass: 375.0, ..Vehicle::default() };
    let why = load("outer", rear).expect_err("nothing is sprung behind").to_string();
    assert!(why.contains("rear") && why.contains("750 kg") && why.contains("150 kg"), "{why}");
    let low = Vehicle { roll_stiffness: 0.0, rear_roll_centre: 5000.0, ..Vehicle::default() };
    let outer = load("outer", low).expect("it holds itself up").road.z;
    assert!(outer.is_finite() && outer < 2.0 * low.standing(), "{outer}");
    let mut barred = demo("strut");
    let mut bar = kernel::AntiRollBar::usual(&barred);
    bar.lever = bar.pivot;
    barred.anti_roll_bar = Some(bar);
    if let Ok(axle) = Axle::new(&barred) {
        let whole = Whole::standing(&Rc::new(axle)).expect("it stands");
        assert!(whole.roll_stiffness().is_none(), "{:?}", whole.roll_stiffness());
    }
}
