//! Bushes that resist turning: against the joints' solved places, against the energy in the rubber, and by laws.

use kernel::{
    Anchor, Axle, Demand, Guide, Layout, LeftOrRight, Load, Member, PointId, Springing, State, TurnedBush, Vec3,
    bushes_at_wheel,
};
use tests::{DEMOS, axle, demo, near};

/// A demo with usual bushes, those of these members tightened at a travel.
fn tightened(name: &str, members: &[Member], travel: f64) -> Layout {
    let mut layout = demo(name);
    layout.stiffness = layout.usual_stiffness();
    members.iter().for_each(|member| layout.changes.tightened.insert(*member, travel));
    layout
}

const ALL: [Member; 5] =
    [Member::LowerFront, Member::LowerRear, Member::UpperFront, Member::UpperRear, Member::TrackRod];

/// The members of an axle that have a bush with torsional stiffness.
fn turned(name: &str) -> Vec<Member> {
    let bushes = TurnedBush::all(&axle(&tightened(name, &[], 0.0)));
    ALL.into_iter().filter(|member| bushes.iter().any(|bush| bush.anchor == Anchor::of(*member))).collect()
}

fn at(axle: &Axle, travel: f64, rack: f64) -> State {
    axle.state(Demand::new(travel, if axle.steered() { rack } else { 0.0 })).unwrap_or_else(|why| panic!("{why}"))
}

/// From a member's inner to its outer joint where a state has them, mm.
fn direction(axle: &Axle, state: &State, anchor: Anchor) -> Vec3 {
    let layout = axle.layout();
    let arms = |guide: &Guide| matches!(guide, Guide::Arms { .. });
    let outer = match anchor {
        Anchor::LowerFront if arms(&layout.lower) => PointId::LowerFrontOuter,
        Anchor::LowerRear if arms(&layout.lower) => PointId::LowerRearOuter,
        Anchor::LowerFront | Anchor::LowerRear => PointId::LowerOuter,
        Anchor::UpperFront if arms(&layout.upper) => PointId::UpperFrontOuter,
        Anchor::UpperRear if arms(&layout.upper) => PointId::UpperRearOuter,
        Anchor::UpperFront | Anchor::UpperRear => PointId::UpperOuter,
        _ => PointId::TrackRodOuter,
    };
    let [inner, outer] = [anchor.joint().expect("a joint"), outer].map(|id| {
        let position = &state.position;
        axle.linkage().place(&position.pose, position.rack, id, layout.point(id).expect("a point"))
    });
    outer - inner
}

/// The axis that a bush of `usual` turns about.
fn axis(layout: &Layout, anchor: Anchor) -> Vec3 {
    let guide = if [Anchor::LowerFront, Anchor::LowerRear].contains(&anchor) { &layout.lower } else { &layout.upper };
    match guide {
        Guide::Wishbone { front, rear, .. } => (front - rear).normalize(),
        _ => layout.stiffness.get(&anchor).and_then(|bush| bush.axis).expect("an axis").normalize(),
    }
}

/// The twist is the angle between the arm's solved directions then and now, seen along the axis, and its turn per travel the difference of those.
#[test]
fn the_twist_is_that_of_the_solved_directions() {
    for name in DEMOS {
        let layout = tightened(name, &turned(name), -40.0);
        let axle = axle(&layout);
        let bushes = TurnedBush::all(&axle);
        assert!(bushes.len() >= 2, "{name}");
        for bush in bushes {
            let a = axis(&layout, bush.anchor);
            let seen = |travel: f64, rack: f64| {
                let d = direction(&axle, &at(&axle, travel, rack), bush.anchor);
                (d - a * a.dot(&d)).normalize()
            };
            let angle = |p: Vec3, q: Vec3| p.cross(&q).norm().asin().to_degrees();
            let then = seen(-40.0, 0.0);
            for (travel, rack) in [(0.0, 0.0), (25.0, 12.0), (-55.0, -8.0)] {
                let is = bush.at(axle.linkage(), &at(&axle, travel, rack)).expect("twisted");
                let what = format!("{name} {:?} at {travel}, {rack}", bush.anchor);
                near(is.twist.abs(), angle(then, seen(travel, rack)), 1e-9, &what);
                near(is.torque, bush.torsion * is.twist, 1e-12, &what);
                let h = 0.01;
                let turn = angle(seen(travel - h, rack), seen(travel + h, rack)) / (2.0 * h);
                near(is.per_travel, turn, 1e-7, &what);
            }
            // It grows in bump from where it was tightened.
            let twist = |travel| bush.at(axle.linkage(), &at(&axle, travel, 0.0)).expect("twisted").twist;
            assert!(twist(-50.0) < 0.0 && twist(-20.0) > 0.0 && twist(30.0) > twist(0.0), "{name} {:?}", bush.anchor);
        }
    }
}

/// Of a wishbone both bushes turn with its body, as whatever rides on it: the spring's foot of the demo.
#[test]
fn a_wishbones_bushes_turn_with_what_rides_on_it() {
    let layout = tightened("double-wishbone", &[Member::LowerFront, Member::LowerRear], -60.0);
    let axle = axle(&layout);
    let Guide::Wishbone { front, rear, .. } = layout.lower else { panic!("a wishbone") };
    let e = (front - rear).normalize();
    let foot = |travel: f64, rack: f64| {
        let from = axle.linkage().spring().foot(&at(&axle, travel, rack).position.pose) - front;
        (from - e * e.dot(&from)).normalize()
    };
    for (travel, rack) in [(10.0, 0.0), (10.0, 25.0), (-30.0, -25.0)] {
        let turn = foot(-60.0, 0.0).cross(&foot(travel, rack)).norm().asin().to_degrees();
        let bushes = TurnedBush::all(&axle);
        for bush in bushes.iter().filter(|bush| bush.tightened == -60.0) {
            let is = bush.at(axle.linkage(), &at(&axle, travel, rack)).expect("twisted").twist;
            near(is, turn, 1e-9, "the wishbone’s turn");
        }
    }
}

/// What is tightened where the car stands is not twisted there, adds nothing there, and the car stands where it did; what it adds to the rate there is
/// torque × turn, twice.
#[test]
fn tightened_where_the_car_stands_nothing_is_twisted() {
    for name in DEMOS {
        for ride in [0.0, 25.0] {
            let mut layout = tightened(name, &[], 0.0);
            layout.changes.set(kernel::Sides::Both, kernel::Change::Ride, ride);
            let axle = axle(&layout);
            let bushes = TurnedBush::all(&axle);
            let mut rate = 0.0;
            for bush in &bushes {
                let is = bush.at(axle.linkage(), axle.stands()).expect("known");
                assert_eq!((bush.tightened, is.twist, is.force), (ride, 0.0, 0.0), "{name}");
                rate += bush.torsion.to_degrees() * 1000.0 * is.per_travel.to_radians().powi(2);
            }
            let (force, stiffens) = bushes_at_wheel(&bushes, axle.linkage(), axle.stands()).expect("known");
            assert_eq!(force, 0.0);
            near(stiffens, rate, 1e-8 * rate, name);
            assert!((0.1..10.0).contains(&rate), "{name}: {rate}");
            let (spring, load) = standing(&axle);
            let stands = spring.settles_with(&bushes, axle.linkage(), &load, axle.stands()).expect("it stands");
            near(stands, ride, 1e-6, name);
        }
    }
}

fn standing(axle: &Axle) -> (Springing, Load) {
    (Springing::of(axle).expect("it carries"), Load::braking(&axle.vehicle(), 0.0))
}

/// The rubber's energy, N·mm.
fn energy(bushes: &[TurnedBush], axle: &Axle, state: &State) -> f64 {
    let of = |bush: &TurnedBush| {
        let twist = bush.at(axle.linkage(), state).expect("known").twist.to_radians();
        bush.torsion.to_degrees() * 1000.0 * twist * twist / 2.0
    };
    bushes.iter().map(of).sum()
}

/// The work of the force at the wheel is the energy in the rubber: torque·dφ = F·dz (Simpson's rule).
#[test]
fn the_rubber_holds_the_work() {
    for name in DEMOS {
        let axle = axle(&tightened(name, &turned(name), -60.0));
        let bushes = TurnedBush::all(&axle);
        let force = |travel: f64| bushes_at_wheel(&bushes, axle.linkage(), &at(&axle, travel, 0.0)).expect("known").0;
        let (steps, h) = (40, 1.0);
        let work: f64 = (0..steps)
            .map(|i| {
                let from = -20.0 + h * f64::from(i);
                h / 6.0 * (force(from) + 4.0 * force(from + h / 2.0) + force(from + h))
            })
            .sum();
        let held = energy(&bushes, &axle, &at(&axle, 20.0, 0.0)) - energy(&bushes, &axle, &at(&axle, -20.0, 0.0));
        near(work, held, 1e-8 * held, name);
    }
}

/// Tightened in droop the bushes carry part of the car, so it stands higher, in equilibrium: there the work of the load is the energy that spring and
/// rubber take up.
#[test]
fn tightened_in_droop_the_car_stands_higher_and_in_equilibrium() {
    for name in DEMOS {
        let axle = axle(&tightened(name, &turned(name), -60.0));
        let bushes = TurnedBush::all(&axle);
        let (spring, load) = standing(&axle);
        let stands = spring.settles_with(&bushes, axle.linkage(), &load, axle.stands()).expect("it stands");
        assert!((-30.0..-0.5).contains(&stands), "{name}: {stands}");
        let stored = |travel: f64| {
            let state = at(&axle, travel, 0.0);
            let pressed = spring.force(state.spring_length);
            pressed * pressed / (2.0 * spring.rate) + energy(&bushes, &axle, &state)
        };
        let h = 0.01;
        let taken_up = (stored(stands + h) - stored(stands - h)) / (2.0 * h);
        let state = at(&axle, stands, 0.0);
        near(taken_up, load.wrench(&state).power(&state.bump.twist), 1e-3, name);
        // Tightened in bump it stands lower.
        let axle = tests::axle(&tightened(name, &turned(name), 60.0));
        let bushes = TurnedBush::all(&axle);
        let lower = spring.settles_with(&bushes, axle.linkage(), &load, axle.stands()).expect("it stands");
        assert!(lower > 0.5, "{name}: {lower}");
    }
}

/// The right wheel is told as a left one; a bush that can't be tightened so far out has no twist, and is not forgotten.
#[test]
fn the_other_wheel_and_a_travel_out_of_reach() {
    let layout = tightened("four-arm", &[Member::LowerFront], -60.0);
    let twists = LeftOrRight::BOTH.map(|side| {
        let axle = axle(&layout).looking_at(side);
        TurnedBush::all(&axle).iter().map(|bush| bush.at(axle.linkage(), axle.stands())).collect::<Vec<_>>()
    });
    assert_eq!(twists[0], twists[1]);
    let layout = tightened("five-rod-unsteered", &[Member::LowerFront], -200.0);
    let axle = axle(&layout);
    let bushes = TurnedBush::all(&axle);
    assert!(axle.state(Demand::new(-200.0, 0.0)).is_err(), "it does not reach so far");
    assert_eq!(bushes[0].at(axle.linkage(), axle.stands()), None);
    assert_eq!(bushes_at_wheel(&bushes, axle.linkage(), axle.stands()), None);
    assert_eq!(bushes.len(), 5);
}
