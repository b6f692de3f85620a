//! Usual bushes and subframes, what becomes of them when a guide changes its kind, and how everything moves that gives way.

use kernel::{
    Anchor, Bush, Bushes, Constraint, Deflection, Guide, Layout, Level, LoadCase, Mount, Setting, Subframe,
    SubframeMount, UnderLoad, Vec3, case_wrenches, frame::mirror, validate,
};
use std::rc::Rc;
use tests::{DEMOS, axle, demo, near};

fn usual(name: &str, mounts: Vec3) -> Layout {
    let layout = demo(name);
    let subframe = Some(Subframe::usual(&layout, mounts));
    Layout { stiffness: layout.usual_stiffness(), subframe, ..layout }
}

#[test]
fn usual_bushes_and_subframes_are_sound_on_every_demo_and_its_other_kinds() {
    for name in DEMOS {
        let layout = usual(name, SubframeMount::RUBBER);
        assert_eq!(validate(&layout), [], "{name}");
        assert_eq!(
            layout.stiffness.iter().count(),
            Anchor::all(&layout).len(),
            "{name}: one wherever there can be one"
        );
        for level in Level::ALL {
            let mut other = layout.clone();
            if let Guide::Arms { .. } = other.guide(level) {
                let anchor = if level == Level::Lower { Anchor::LowerRear } else { Anchor::UpperRear };
                other.stiffness.insert(anchor, Bush { along: Some(25_000.0), ..Bush::default() });
            }
            assert_eq!(validate(&other), [], "{name}");
            let split = other.other_kind(level);
            assert_eq!(validate(&split), [], "{name}: a wishbone has nothing along it");
            assert_eq!(validate(&split.other_kind(level)), [], "{name}");
        }
    }
}

/// Members without a stiffness of their own keep their lengths: their outer joint, moved with the carrier, and their body end, moved as told, stay as
/// far apart along them; and a strut's line stays on its mount. And so far as the subframe carries a rigid joint, that moves with it.
#[test]
fn rigid_members_keep_their_lengths_as_things_move() {
    for name in DEMOS {
        let mut layout = usual(name, SubframeMount::RUBBER);
        if layout.rack.is_some() {
            layout.stiffness.remove(&Anchor::TrackRod);
        }
        layout.stiffness.remove(&Anchor::LowerFront);
        let axle = Rc::new(axle(&layout));
        let [left, right] = axle.both_stand();
        let wrenches = case_wrenches(LoadCase::named("outer").expect("a case"), &Setting::of(&axle), [left, right])
            .expect("a load");
        let bushes = Bushes::of(&axle).expect("soft");
        let moves = Deflection::wrenches(&bushes, &axle, [left, right], &wrenches).expect("held");
        let under = UnderLoad::wrenches(&bushes, &axle, [left, right], &wrenches).expect("held");
        for (side, state) in [left, right].into_iter().enumerate() {
            let Deflection { carrier, subframe, bar, ends } = moves[side];
            assert_eq!(under[side].wheel_centre, carrier.v);
            assert!(carrier.v.norm() > 0.1, "{name}: it gives way");
            for (i, row) in axle.linkages()[side].rows().iter().enumerate() {
                let line = state.guides[i];
                let stretch = line.rate(&carrier) - line.u.dot(&ends[i]);
                near(stretch, 0.0, 1e-9, &format!("{name}, {:?}", row.member));
                if Anchor::of(row.member) == Anchor::LowerFront {
                    let Constraint::Rod { inner, .. } = row.constraint else { panic!("a rod") };
                    near((ends[i] - subframe.velocity(inner)).norm(), 0.0, 1e-9, "it goes with the subframe");
                }
            }
            let rack = layout.rack.is_some();
            assert_eq!(bar != 0.0, rack, "{name}: the rack shifts in its housing");
        }
        // One subframe, seen from either side.
        near((moves[1].subframe.v - mirror(moves[0].subframe.v)).norm(), 0.0, 1e-12, "one subframe");
    }
}

/// What the rack is bolted to decides what a side force does with held hands; usual bushes give usual sizes (common practice, no source).
#[test]
fn the_rack_on_the_body_steers_and_on_a_bolted_subframe_hardly() {
    let steer = |name: &str, mount, mounts| {
        let mut layout = usual(name, mounts);
        layout.rack.as_mut().expect("a rack").mount = mount;
        let axle = axle(&layout);
        let [left, right] = axle.both_stand();
        let bushes = Bushes::of(&axle).expect("soft");
        kernel::Elastic::at(&bushes, &axle, [left, right], 0).expect("held").axle_steer_side_force
    };
    let ahead = "wishbone-over-arms";
    let (body, bolted) =
        (steer(ahead, Mount::Body, SubframeMount::RUBBER), steer(ahead, Mount::Subframe, SubframeMount::BOLTED));
    assert!((0.1..0.5).contains(&body), "out of the bend: {body}");
    assert!((0.0..0.12).contains(&bolted.abs()), "{bolted}");
    let behind = "four-arm";
    let (body, bolted) =
        (steer(behind, Mount::Body, SubframeMount::RUBBER), steer(behind, Mount::Subframe, SubframeMount::BOLTED));
    assert!((-0.5..-0.02).contains(&body), "into the bend: {body}");
    assert!(bolted.abs() < 0.12, "{bolted}");
}
