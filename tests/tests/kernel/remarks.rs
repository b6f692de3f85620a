//! Remarks: none on the demos, each brought about by its slip.

use kernel::{Guide, Layout, Member, PointId, Remark, remarks};
use tests::{DEMOS, demo, near};

/// A demo with a slip.
fn slipped(name: &str, id: PointId, axis: usize, value: f64) -> Layout {
    let mut layout = demo(name);
    layout.point_mut(id).expect("a point")[axis] = value;
    layout
}

fn said(layout: &Layout, remark: Remark) {
    let all = remarks(layout);
    assert!(all.contains(&remark), "{remark:?} is not in {all:?}");
}

#[test]
fn the_demos_are_remarked_on_nowhere() {
    for name in DEMOS {
        assert_eq!(remarks(&demo(name)), [], "{name}");
    }
}

#[test]
fn a_swapped_sign_is_remarked_on() {
    let ball = PointId::LowerOuter;
    said(&slipped("double-wishbone", ball, 1, -731.2), Remark::OtherSide(ball, -731.2));
    said(&slipped("double-wishbone", ball, 2, -175.0), Remark::BelowRoad(ball, 175.0));
}

#[test]
fn a_missing_digit_is_remarked_on_and_one_too_many() {
    let id = PointId::LowerRearInner;
    said(&slipped("double-wishbone", id, 1, 37.5), Remark::Digit(id, 1, 37.5, 375.0));
    said(&slipped("double-wishbone", id, 2, 1900.0), Remark::Digit(id, 2, 1900.0, 190.0));
    let id = PointId::WheelCentre;
    said(&slipped("four-arm", id, 1, 76.0), Remark::Digit(id, 1, 76.0, 760.0));
}

#[test]
fn a_ball_joint_above_the_struts_foot_is_remarked_on() {
    for (name, id) in [("strut", PointId::LowerOuter), ("strut-over-arms", PointId::LowerRearOuter)] {
        said(&slipped(name, id, 2, 350.0), Remark::AboveFoot(id, 20.0));
    }
}

/// The tyre's bottom lies 316 below the wheel centre at z 305, its inner face 102.5 inboard of y 765.
#[test]
fn a_joint_inside_the_tyre_is_remarked_on() {
    let mut layout = slipped("double-wishbone", PointId::LowerOuter, 2, 20.0);
    (layout.wheel.camber, layout.wheel.toe) = (0.0, 0.0);
    let found = remarks(&layout);
    let deep = found.iter().find_map(|remark| match remark {
        Remark::InTyre(PointId::LowerOuter, deep) => Some(*deep),
        _ => None,
    });
    near(deep.expect("a remark"), 102.5 - (765.0 - 731.2), 1e-9, "behind the inner face");
}

#[test]
fn a_wheel_off_the_road_is_remarked_on() {
    let mut layout = demo("four-arm");
    for (radius, remarked) in [(280.0, false), (270.0, true), (330.0, false), (340.0, true)] {
        layout.wheel.loaded_radius = radius;
        let off = remarks(&layout).iter().find_map(|remark| match remark {
            Remark::OffRoad(off) => Some(*off),
            _ => None,
        });
        assert_eq!(off.is_some(), remarked, "{radius}");
        if let Some(off) = off {
            // Camber of half a degree makes up a hundredth of a mm.
            near(off, 305.0 - radius, 0.02, "above the road");
        }
    }
}

#[test]
fn an_inclination_that_no_axle_has_is_remarked_on() {
    let inclined = |y| remarks(&slipped("double-wishbone", PointId::UpperOuter, 1, y));
    let of = |all: &[Remark]| all.iter().any(|remark| matches!(remark, Remark::Inclination(_)));
    // The ball joints are 335 mm above each other, the lower one at y 731.2.
    assert!(of(&inclined(731.2 - 335.0 * 22_f64.to_radians().tan())));
    assert!(of(&inclined(735.0)));
    assert!(!of(&inclined(720.0)));
}

#[test]
fn members_along_one_line_are_remarked_on() {
    let mut layout = demo("four-arm");
    let Guide::Arms { front, rear } = &mut layout.lower else { panic!("arms") };
    *rear = *front;
    said(&layout, Remark::InLine(Member::LowerFront, Member::LowerRear, 0.0));
    let mut layout = demo("double-wishbone");
    let Guide::Wishbone { front, rear, outer } = &mut layout.upper else { panic!("a wishbone") };
    *rear = *front + (*outer - *front) / 3.0;
    let found = remarks(&layout);
    assert!(found.iter().any(|r| matches!(r, Remark::InLine(Member::UpperFront, Member::UpperRear, _))), "{found:?}");
}
