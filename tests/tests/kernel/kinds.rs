//! A wishbone split into two arms guides the wheel as it did; two arms joined are one wishbone.

use kernel::{
    Adjusted, Adjuster, AntiRollBar, Change, Demand, Guide, LeftOrRight, Level, Member, PointId, READINGS, Sides,
    Snapshot, SpringOn, validate,
};
use tests::{axle, demo, near};

/// Readings of the spring alone: its foot turns with one arm in place of the wishbone, so beside that arm’s line it goes another way.
const OF_THE_SPRING: [&str; 2] = ["motion_ratio", "spring_length_mm"];

/// Same rows, same poses: to the last digits of a solver that stops at 1e-9 mm.
const SAME: f64 = 1e-6;

#[test]
fn a_split_wishbone_leaves_every_reading_as_it_was() {
    let mut compared = 0;
    for (name, level) in [
        ("double-wishbone", Level::Lower),
        ("double-wishbone", Level::Upper),
        ("strut", Level::Lower),
        ("wishbone-over-arms", Level::Upper),
    ] {
        let mut before = demo(name);
        before.changes.set(Sides::Both, Change::Length(Member::LowerRear), 1.5);
        before.changes.set(Sides::One(LeftOrRight::Left), Change::Joint(level.ball_joint(), 1), 2.0);
        let after = before.other_kind(level);
        assert!(matches!(after.guide(level), Guide::Arms { .. }));
        assert_eq!(validate(&after), []);
        for (travel, rack) in [(0.0, 0.0), (40.0, 0.0), (-50.0, 25.0)] {
            let [was, is] =
                [&before, &after].map(|layout| axle(layout).state(Demand::new(travel, rack)).expect("a state"));
            let moved = before.spring.on != after.spring.on;
            for reading in READINGS.iter().filter(|reading| !(moved && OF_THE_SPRING.contains(&reading.column))) {
                let [was, is] = [&was, &is].map(|state| (reading.value)(&Snapshot::of(state)));
                assert_eq!(was.is_some(), is.is_some(), "{name} {}", reading.column);
                if let (Some(was), Some(is)) = (was, is) {
                    near(is, was, SAME * was.abs().max(1.0), &format!("{name} {travel} {rack} {}", reading.column));
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 200, "{compared}");
}

#[test]
fn split_and_joined_again_is_the_same_axle() {
    for (name, level) in [("double-wishbone", Level::Lower), ("double-wishbone", Level::Upper), ("strut", Level::Lower)]
    {
        let mut before = demo(name);
        before.anti_roll_bar = Some(AntiRollBar::usual(&before));
        before.changes.set(Sides::Both, Change::Joint(level.ball_joint(), 2), -3.0);
        before.changes.set(Sides::Both, Change::Length(Member::LowerFront), 1.0);
        assert_eq!(before.other_kind(level).other_kind(level), before, "{name}");
    }
}

#[test]
fn what_rides_on_a_wishbone_then_rides_on_the_nearest_arm() {
    let mut layout = demo("double-wishbone");
    layout.anti_roll_bar = Some(AntiRollBar::usual(&layout));
    let Guide::Wishbone { front, rear, outer } = layout.lower else { panic!("a wishbone") };
    layout.spring.foot = Some((front + outer) / 2.0);
    layout.anti_roll_bar.as_mut().expect("a bar").link = (rear + outer) / 2.0;
    let split = layout.other_kind(Level::Lower);
    assert_eq!(split.spring.on, SpringOn::LowerFront);
    assert_eq!(split.anti_roll_bar.map(|bar| bar.on), Some(SpringOn::LowerRear));
    assert_eq!(split.spring.foot, layout.spring.foot);
}

#[test]
fn joined_arms_have_their_ball_joint_in_the_middle() {
    let mut layout = demo("four-arm");
    layout.changes.set(Sides::Both, Change::Joint(PointId::LowerFrontOuter, 1), 2.0);
    layout.changes.set(Sides::Both, Change::Joint(PointId::LowerRearInner, 1), 1.0);
    let adjuster = |set| Adjuster { set: Adjusted::Change(set), range: [-5.0, 5.0], pitch: None, step: None };
    let stays = adjuster(Change::Length(Member::LowerRear));
    layout.changes.adjusters = vec![stays.clone(), adjuster(Change::Joint(PointId::LowerRearOuter, 1))];
    let joined = layout.other_kind(Level::Lower);
    let middle = [PointId::LowerFrontOuter, PointId::LowerRearOuter].map(|id| layout.point(id).expect("a joint"));
    assert_eq!(joined.point(PointId::LowerOuter), Some((middle[0] + middle[1]) / 2.0));
    assert_eq!(joined.spring.on, SpringOn::Lower);
    let ball = |axis| joined.changes.get(Sides::Both, Change::Joint(PointId::LowerOuter, axis));
    assert_eq!([ball(0), ball(1)], [0.0, 1.0], "half of what the one joint is off");
    assert_eq!(joined.changes.get(Sides::Both, Change::Joint(PointId::LowerRearInner, 1)), 1.0);
    assert_eq!(joined.changes.adjusters, [stays], "the joint that the other moved is gone");
    assert_eq!(validate(&joined), []);
    axle(&joined);
    let strut = demo("strut");
    assert_eq!(strut.other_kind(Level::Upper), strut, "a strut stays one");
}
