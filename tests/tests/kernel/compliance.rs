//! What gives way: by hand, against the energy in bushes, by laws, in size, and bad input.
//! Long because each law and each slip is a case of its own.

use kernel::{
    Anchor, Axle, Bush, Bushes, Compliance, Corner, Demand, Elastic, Few, Group, Guide, Held, Layout, LoadCase, Mount,
    Part, PointId, Position, READINGS, Reading, Rod, Setting, Snapshot, Spring, SpringOn, State, Statics, Subframe,
    SubframeMount, UnderLoad, Unit, Vec3, Wrench, case_wrenches, force_wrenches, frame::mirror, validate,
};
use nalgebra::{DMatrix, DVector, Matrix3, Matrix6, Vector6};
use proptest::prelude::*;
use tests::{DEMOS, axle, demo, near};

/// Bushes of the size usual on a small car (invented): stiff in front, soft behind.
fn bush(anchor: Anchor, steered: bool) -> Bush {
    let rubber = |radial, axial| Bush { radial: Some(radial), axial: Some(axial), ..Bush::default() };
    let rod = |along| Bush { along: Some(along), ..Bush::default() };
    match anchor {
        Anchor::LowerFront => rubber(9_000.0, 900.0),
        // The soft one behind a driven wheel; five rods share what it alone takes up.
        Anchor::LowerRear if steered => rubber(1_500.0, 500.0),
        Anchor::LowerRear => rubber(4_000.0, 500.0),
        Anchor::UpperFront | Anchor::UpperRear => rubber(3_000.0, 600.0),
        Anchor::StrutTop => rubber(1_500.0, 900.0),
        Anchor::TrackRod if steered => rod(25_000.0),
        Anchor::TrackRod => rubber(6_000.0, 800.0),
        Anchor::Rack => rod(8_000.0),
    }
}

/// Two mounts a side with this stiffness to all sides.
fn subframe(k: f64) -> Subframe {
    let mount = |x, y, z| SubframeMount { at: Vec3::new(x, y, z), stiffness: Vec3::new(k, 1.2 * k, 0.8 * k) };
    Subframe { mounts: vec![mount(180.0, 400.0, 250.0), mount(-380.0, 420.0, 260.0)], carries: None }
}

/// A layout with a usual bush wherever it can have one.
fn with_bushes(mut layout: Layout) -> Layout {
    let steered = layout.rack.is_some();
    layout.stiffness = Anchor::ALL.iter().map(|&(anchor, _)| (anchor, bush(anchor, steered))).collect();
    let missing: Vec<Anchor> = validate(&layout)
        .into_iter()
        .map(|problem| match problem {
            kernel::Problem::Yielding(kernel::Yielding::NotThere(anchor)) => anchor,
            other => panic!("{other}"),
        })
        .collect();
    missing.iter().for_each(|anchor| layout.stiffness.remove(anchor));
    // An arm's bush lies level across it.
    for (guide, anchors) in [
        (&layout.lower, [Anchor::LowerFront, Anchor::LowerRear]),
        (&layout.upper, [Anchor::UpperFront, Anchor::UpperRear]),
    ] {
        let Guide::Arms { front, rear } = guide else { continue };
        for (anchor, arm) in anchors.into_iter().zip([front, rear]) {
            let axis = Some((arm.outer - arm.inner).cross(&Vec3::z()).map(f64::round));
            let bush = Bush { axis, ..*layout.stiffness.get(&anchor).expect("a bush") };
            layout.stiffness.insert(anchor, bush);
        }
    }
    layout
}

fn soft(name: &str, mounts: Option<f64>) -> Layout {
    Layout { subframe: mounts.map(subframe), ..with_bushes(demo(name)) }
}

/// Both wheels at their travels and one rack displacement, each as a left one.
fn both(axle: &Axle, travels: [f64; 2], rack: f64) -> [State; 2] {
    let racks = if axle.steered() { [rack, -rack] } else { [0.0; 2] };
    std::array::from_fn(|i| {
        let linkage = &axle.linkages()[i];
        let demand = Demand::new(travels[i], racks[i]);
        State::solve(linkage, demand, &Position::at_rest(linkage)).unwrap_or_else(|why| panic!("{why}"))
    })
}

fn elastic_at(layout: &Layout, travels: [f64; 2], rack: f64) -> Elastic {
    let axle = axle(layout);
    let [left, right] = both(&axle, travels, rack);
    Elastic::at(&Bushes::of(&axle).expect("soft"), &axle, [&left, &right], 0).expect("held")
}

fn elastic(layout: &Layout) -> Elastic {
    elastic_at(layout, [0.0; 2], 0.0)
}

/// The readings of what gives way.
fn readings() -> impl Iterator<Item = &'static Reading> {
    READINGS.iter().filter(|reading| reading.group == Group::Compliance)
}

/// All nine, in the order of the table.
fn values(elastic: &Elastic) -> [f64; 9] {
    let e = elastic;
    [
        e.toe_side_force,
        e.camber_side_force,
        e.axle_steer_side_force,
        e.contact_sideways,
        e.toe_brake_force,
        e.toe_drive_force,
        e.wheel_centre_lengthwise,
        e.toe_aligning_moment,
        e.side_force_no_steer_point.expect("its toe gives way"),
    ]
}

#[track_caller]
fn same(a: &Elastic, b: &Elastic, tolerance: f64, law: impl Fn(Unit) -> f64) {
    for (i, reading) in readings().enumerate() {
        let should = values(a)[i] * law(reading.unit);
        near(values(b)[i], should, tolerance * should.abs().max(1e-3), reading.column);
    }
}

/// A frame of rods along y and x at two heights, by hand. Lower arms of stiffness k_f and k_r along y at x = ±d and height a; upper front arm of
/// stiffness k along y at height b; upper rear arm and track rod of stiffness k along x, e inboard of the wheel plane, at b and a. With h = b − a
/// and a side force F at the road, by the lever the lower arms pull F b/h together and the upper one F a/h the other way; a moment M about the
/// vertical puts M/2d on either lower arm; a force along x is shared by the two rods at a and b by the lever, and turns by F e.
#[test]
fn a_frame_of_parallel_rods_by_hand() {
    let (a, b, d, e, k, kf, kr) = (180.0, 560.0, 150.0, 100.0, 2_000.0, 5_000.0, 1_250.0);
    let (hub, y) = (300.0, 750.0);
    let along_y = |x: f64, z: f64| Rod { inner: Vec3::new(x, 300.0, z), outer: Vec3::new(x, 700.0, z) };
    let along_x = |z: f64| Rod { inner: Vec3::new(-400.0, y - e, z), outer: Vec3::new(20.0, y - e, z) };
    let mut layout = demo("five-rod-unsteered");
    layout.wheel.centre = Vec3::new(0.0, y, hub);
    (layout.wheel.camber, layout.wheel.toe, layout.wheel.loaded_radius) = (0.0, 0.0, hub);
    layout.lower = Guide::Arms { front: along_y(d, a), rear: along_y(-d, a) };
    layout.upper = Guide::Arms { front: along_y(0.0, b), rear: along_x(b) };
    layout.track_rod = along_x(a);
    let (top, foot) = (Some(Vec3::new(0.0, 600.0, 800.0)), Some(Vec3::new(0.0, 600.0, 300.0)));
    layout.spring = Spring { on: SpringOn::Carrier, top, foot, rate: 50.0, rocker: None };
    let rod = |along| Bush { along: Some(along), ..Bush::default() };
    layout.stiffness = [
        (Anchor::LowerFront, rod(kf)),
        // The same from a bush whose axis lies along x, its axial stiffness idle.
        (Anchor::LowerRear, Bush { radial: Some(kr), axial: Some(7.0), ..Bush::default() }),
        (Anchor::UpperFront, rod(k)),
        (Anchor::UpperRear, rod(k)),
        (Anchor::TrackRod, rod(k)),
    ]
    .into_iter()
    .collect();
    let is = elastic(&layout);
    let h = b - a;
    let (force, moment) = (1000.0, 1e5);
    let (low, up) = (force * b / h, force * a / h);
    // Inward: the lower arms at ±d shorten, the upper one lengthens.
    let (front, rear, top) = (low / 2.0 / kf, low / 2.0 / kr, up / k);
    let bottom = (front + rear) / 2.0;
    let degrees = f64::to_degrees;
    near(is.toe_side_force, degrees((front - rear) / (2.0 * d)), 1e-10, "toe, side force");
    near(is.camber_side_force, degrees((bottom + top) / h), 1e-10, "camber");
    near(is.contact_sideways, bottom + (bottom + top) * a / h, 1e-9, "contact sideways");
    let turn = |moment: f64| moment / (2.0 * d) * (1.0 / kf + 1.0 / kr) / (2.0 * d);
    near(is.toe_aligning_moment, -degrees(turn(moment)), 1e-10, "toe, moment");
    near(is.toe_brake_force, -degrees(turn(force * e)), 1e-10, "toe, braking");
    near(is.toe_drive_force, degrees(turn(force * e)), 1e-10, "toe, driving");
    let share = [(b - hub) / h, (hub - a) / h];
    let lengthwise = force * (share[0].powi(2) + share[1].powi(2)) / k + turn(force * e) * e;
    near(is.wheel_centre_lengthwise, lengthwise, 1e-9, "lengthwise");
    near(
        is.side_force_no_steer_point.expect("it turns"),
        -100.0 * is.toe_side_force / is.toe_aligning_moment,
        1e-9,
        "point",
    );

    // On a subframe with mounts at the arms' height a side force on both wheels shifts it by 2 F b/h over four mounts, and nothing turns it.
    let mount = |x| SubframeMount { at: Vec3::new(x, 350.0, a), stiffness: Vec3::repeat(4_000.0) };
    layout.subframe = Some(Subframe { mounts: vec![mount(200.0), mount(-200.0)], carries: None });
    let on = elastic(&layout);
    let shift = 2.0 * low / (4.0 * 4_000.0);
    near(on.camber_side_force, is.camber_side_force + degrees(shift / h), 1e-10, "camber on the subframe");
    near(on.contact_sideways, is.contact_sideways + shift * b / h, 1e-9, "sideways on the subframe");
    // A moment on both wheels, to the left on both: the arms' pairs turn it left against mounts at ±200 mm and 350 mm to either side.
    let yaw = 2.0 * moment / (4.0 * 4_000.0 * (200.0_f64.powi(2) + 350.0_f64.powi(2)));
    near(on.toe_aligning_moment, is.toe_aligning_moment - degrees(yaw), 1e-10, "moment on the subframe");
}

/// K⁻¹ of a bush, in the axes of a left wheel's car.
fn give(layout: &Layout, anchor: Anchor, axis: Vec3) -> Matrix3<f64> {
    let Some(Bush { radial: Some(radial), axial: Some(axial), axis: own, .. }) = layout.stiffness.get(&anchor) else {
        return Matrix3::zeros();
    };
    let a = own.unwrap_or(axis).normalize();
    (Matrix3::identity() - a * a.transpose()) / *radial + a * a.transpose() / *axial
}

/// Complementary energy in everything that gives way under wrenches on both carriers with the springs holding, from the forces at the joints as
/// `Corner` has them, and with x of each wishbone's force along its body axis moved from its rear to its front joint.
fn energy(layout: &Layout, axle: &Axle, states: &[State; 2], wrenches: &[Wrench; 2], x: &[f64]) -> f64 {
    let (mut sum, mut on_subframe, mut on_rack, mut x) = (0.0, Vector6::zeros(), 0.0, x.iter());
    for (side, state) in states.iter().enumerate() {
        let linkage = &axle.linkages()[side];
        let corner = Corner::under(linkage, state, &Statics::at(state), &wrenches[side]).expect("held");
        let w = state.position.pose.w;
        let to_car = |f: Vec3, m: Vec3| if side == 0 { (f, m) } else { (mirror(f), -mirror(m)) };
        let mut carry = |anchor: Anchor, at: Vec3, force: Vec3, couple: Vec3| {
            if layout.subframe_carries(anchor) {
                let (f, m) = to_car(force, (w + at).cross(&force) + couple);
                on_subframe += Vector6::new(f.x, f.y, f.z, m.x, m.y, m.z);
            }
        };
        let joints = [
            (PointId::LowerFrontInner, Anchor::LowerFront, 0),
            (PointId::LowerRearInner, Anchor::LowerRear, 1),
            (PointId::UpperFrontInner, Anchor::UpperFront, 2),
            (PointId::UpperRearInner, Anchor::UpperRear, 3),
            (PointId::StrutTop, Anchor::StrutTop, 2),
            (PointId::TrackRodInner, Anchor::TrackRod, 4),
        ];
        let point = |id| layout.point(id).expect("a joint");
        let mut moved = 0.0;
        for (id, anchor, row) in joints {
            let Some(joint) = corner.body.iter().find(|joint| joint.id == id) else { continue };
            let part = linkage.rows()[row].part;
            let (at, mut force, mut axis) = (joint.at, joint.force, Vec3::x());
            if matches!(part, Part::LowerWishbone | Part::UpperWishbone) {
                let front = row % 2 == 0;
                let other = joints[if front { row + 1 } else { row - 1 }].0;
                axis = point(other) - point(id);
                moved = if front { *x.next().expect("as many as wishbones") } else { moved };
                // To the front joint along front → rear, off the rear one along the same.
                force += axis.normalize() * moved;
            }
            if part == Part::Strut {
                // A spring without an end of its own stands on the mount.
                let spring = corner.body.iter().find(|joint| joint.id == PointId::SpringTop && joint.at == at);
                force += spring.map_or(Vec3::zeros(), |spring| spring.force);
                axis = point(PointId::StrutTop) - point(PointId::StrutFoot);
            }
            let along = layout.stiffness.get(&anchor).and_then(|bush| bush.along).map_or(0.0, f64::recip);
            let tension = corner.members.rows[row];
            let bent =
                linkage.spring_part() == Some(part) && !matches!(part, Part::LowerWishbone | Part::UpperWishbone);
            sum += 0.5 * (force.dot(&(give(layout, anchor, axis) * force)) + tension * tension * along);
            let on_rack_bar = anchor == Anchor::TrackRod && layout.rack.is_some();
            if on_rack_bar {
                on_rack += to_car(force, Vec3::zeros()).0.y;
            }
            let held = if on_rack_bar { Anchor::Rack } else { anchor };
            carry(held, at, force, if bent { corner.bush } else { Vec3::zeros() });
        }
    }
    if let Some(subframe) = &layout.subframe {
        let mut k = Matrix6::zeros();
        for mount in &subframe.mounts {
            for at in [mount.at, mirror(mount.at)] {
                for axis in 0..3 {
                    // The movement of the mount along an axis, per shift and turn of the subframe: ω×r along e is (r×e)·ω.
                    let e = Vec3::ith(axis, 1.0);
                    let turn = at.cross(&e);
                    let row = Vector6::new(e.x, e.y, e.z, turn.x, turn.y, turn.z);
                    k += row * row.transpose() * mount.stiffness[axis];
                }
            }
        }
        sum += 0.5 * on_subframe.dot(&k.lu().solve(&on_subframe).expect("it is held"));
    }
    let rack = layout.stiffness.get(&Anchor::Rack).and_then(|rack| rack.along).map_or(0.0, f64::recip);
    sum + 0.5 * on_rack * on_rack * rack
}

/// The least of a quadratic of n variables, from its values (Castigliano, Menabrea: what is statically free takes the least complementary energy).
fn least(n: usize, of: impl Fn(&[f64]) -> f64) -> f64 {
    // Forces of a kilonewton: no digits are lost.
    const STEP: f64 = 1_000.0;
    let at = |i: &[usize]| {
        let mut x = vec![0.0; n];
        i.iter().for_each(|&i| x[i] += STEP);
        of(&x)
    };
    let base = at(&[]);
    if n == 0 {
        return base;
    }
    let curved = |i, j| at(&[i, j]) - at(&[i]) - at(&[j]) + base;
    let h = DMatrix::from_fn(n, n, curved);
    let g = DVector::from_fn(n, |i, _| at(&[i]) - base - h[(i, i)] / 2.0);
    base - g.dot(&h.lu().solve(&g).expect("one least energy")) / 2.0
}

/// The work of two wrenches is twice the energy that the bushes then hold, on every demo, with the spring on every kind of part, on subframes that
/// carry all or half of a wishbone, at a bump in lock.
#[test]
fn the_bushes_hold_the_work() {
    let upper = SpringOn::Upper;
    let on = |name: &str, spring: Option<(SpringOn, Vec3)>, carries: Option<Vec<Anchor>>| {
        let mut layout = soft(name, Some(2_500.0));
        if let Some((on, foot)) = spring {
            let top = layout.spring.top.unwrap_or(Vec3::new(-20.0, 560.0, 760.0));
            layout.spring = Spring { on, top: Some(top), foot: Some(foot), rate: 50.0, rocker: None };
        }
        layout.subframe = layout.subframe.map(|subframe| Subframe { carries, ..subframe });
        layout
    };
    let half = Some(vec![Anchor::LowerRear, Anchor::UpperFront, Anchor::Rack]);
    let mut layouts: Vec<Layout> = DEMOS.iter().map(|name| on(name, None, None)).collect();
    layouts.extend([
        on("wishbone-over-arms", Some((upper, Vec3::new(-25.0, 570.0, 645.0))), half.clone()),
        on("double-wishbone", Some((upper, Vec3::new(-20.0, 560.0, 512.0))), half),
        on(
            "strut",
            Some((SpringOn::Lower, Vec3::new(-60.0, 560.0, 212.0))),
            Some(vec![Anchor::LowerFront, Anchor::StrutTop]),
        ),
        on("five-rod-unsteered", None, Some(vec![Anchor::TrackRod, Anchor::UpperRear])),
        on("four-arm", Some((SpringOn::Carrier, Vec3::new(-10.0, 640.0, 300.0))), None),
    ]);
    let loads = [
        [
            Wrench { force: Vec3::new(-900.0, -1_500.0, 2_000.0), moment: Vec3::new(3e5, 1e5, -2e5) },
            Wrench { force: Vec3::new(400.0, 700.0, -800.0), moment: Vec3::new(-1e5, 2e5, 4e4) },
        ],
        [
            Wrench { force: Vec3::zeros(), moment: Vec3::z() * 1e5 },
            Wrench { force: Vec3::zeros(), moment: Vec3::zeros() },
        ],
    ];
    for layout in &layouts {
        let axle = axle(layout);
        let states = both(&axle, [25.0, -10.0], 12.0);
        let wishbones = axle
            .linkages()
            .iter()
            .flat_map(|linkage| linkage.parts())
            .filter(|(_, rows)| matches!(rows[0].part, Part::LowerWishbone | Part::UpperWishbone));
        let free = wishbones.count();
        let bushes = Bushes::of(&axle).expect("soft");
        let compliance =
            Compliance::at(&bushes, axle.linkages(), [&states[0], &states[1]], Held::BySprings).expect("held");
        for wrenches in &loads {
            let twists = compliance.twists(wrenches);
            let work: f64 = wrenches.iter().zip(&twists).map(|(wrench, twist)| wrench.power(twist)).sum();
            let held = least(free, |x| energy(layout, &axle, &states, wrenches, x));
            near(work / 2.0, held, 1e-8 * held, &layout.name);
        }
    }
}

/// Positions that every demo has.
fn positions() -> impl Strategy<Value = ([f64; 2], f64)> {
    ([-40.0..40.0_f64, -40.0..40.0], -30.0..30.0_f64)
}

/// A soft demo with every stiffness up to three times larger or smaller.
fn soft_axles() -> impl Strategy<Value = Layout> {
    (0..DEMOS.len(), prop::collection::vec(-1.0..1.0_f64, 16), prop::option::of(800.0..9_000.0_f64)).prop_map(
        |(index, by, mounts)| {
            let mut layout = soft(DEMOS[index], mounts);
            for (bush, by) in layout.stiffness.values_mut().zip(by) {
                stiffen(bush, 3.0_f64.powf(by));
            }
            layout
        },
    )
}

fn hostile_stiffness() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(-1.0),
        Just(0.0),
        Just(1e-3),
        Just(1e12),
        Just(1e300),
        Just(f64::MIN_POSITIVE),
        1.0..1e5_f64,
    ]
}

fn stiffen(bush: &mut Bush, by: f64) {
    for value in [&mut bush.radial, &mut bush.axial, &mut bush.along].into_iter().flatten() {
        *value *= by;
    }
}

fn all_stiffer(layout: &Layout, by: f64) -> Layout {
    let mut layout = layout.clone();
    layout.stiffness.values_mut().for_each(|bush| stiffen(bush, by));
    layout.subframe.iter_mut().flat_map(|subframe| &mut subframe.mounts).for_each(|mount| mount.stiffness *= by);
    layout
}

fn moved(layout: &Layout, change: impl Fn(Vec3) -> Vec3) -> Layout {
    let mut layout = layout.clone();
    let ids: Vec<PointId> = layout.points().map(|(id, _)| id).collect();
    for id in ids {
        let point = layout.point_mut(id).expect("it has the point");
        *point = change(*point);
    }
    layout.subframe.iter_mut().flat_map(|subframe| &mut subframe.mounts).for_each(|mount| mount.at = change(mount.at));
    layout
}

proptest! {
    #![proptest_config(tests::cases(60))]

    /// Maxwell: what a force here moves there is what the same force there moves here, also from wheel to wheel; and nothing moves against its force.
    #[test]
    fn reciprocity(layout in soft_axles(), (travels, rack) in positions(), a in prop::array::uniform6(-1.0..1.0_f64), b in prop::array::uniform6(-1.0..1.0_f64)) {
        let axle = axle(&layout);
        let [left, right] = both(&axle, travels, rack);
        let wrench = |x: [f64; 6]| Wrench { force: Vec3::new(x[0], x[1], x[2]) * 1e3, moment: Vec3::new(x[3], x[4], x[5]) * 1e5 };
        let none = wrench([0.0; 6]);
        for held in [Held::ByPads, Held::BySprings] {
            let bushes = Bushes::of(&axle).expect("soft");
            let compliance = Compliance::at(&bushes, axle.linkages(), [&left, &right], held).expect("held");
            let (a, b) = (wrench(a), wrench(b));
            let size = a.power(&compliance.twists(&[a, none])[0]).max(b.power(&compliance.twists(&[none, b])[1])).max(1e-6);
            prop_assert!(a.power(&compliance.twists(&[a, none])[0]) >= -1e-9 * size);
            let (here, there) = (b.power(&compliance.twists(&[a, none])[0]), a.power(&compliance.twists(&[b, none])[0]));
            near(here, there, 1e-9 * size, "one wheel");
            let (here, there) = (b.power(&compliance.twists(&[a, none])[1]), a.power(&compliance.twists(&[none, b])[0]));
            near(here, there, 1e-9 * size, "wheel to wheel");
        }
    }

    /// An axle whose wheels change places reads on the right what it read on the left.
    #[test]
    fn mirror_left_to_right(layout in soft_axles(), (travels, rack) in positions()) {
        let axle = axle(&layout);
        let [left, right] = both(&axle, travels, rack);
        let bushes = Bushes::of(&axle).expect("soft");
        let here = Elastic::at(&bushes, &axle, [&left, &right], 0).expect("held");
        let there = Elastic::at(&bushes, &axle, [&right, &left], 1).expect("held");
        same(&here, &there, 1e-8, |_| 1.0);
    }

    #[test]
    fn move_along_x(layout in soft_axles(), (travels, rack) in positions()) {
        let along = moved(&layout, |p| p + Vec3::x() * 1234.5);
        same(&elastic_at(&layout, travels, rack), &elastic_at(&along, travels, rack), 1e-7, |_| 1.0);
    }

    /// k times as large with the same stiffnesses: movements per force stay, turns per force are as 1/k and per moment as 1/k².
    #[test]
    fn scale(layout in soft_axles(), (travels, rack) in positions(), k in 0.5_f64..3.0) {
        let mut large = moved(&layout, |p| p * k);
        large.wheel.loaded_radius *= k;
        if let Some(rack) = &mut large.rack {
            rack.travel *= k;
        }
        same(&elastic_at(&layout, travels, rack), &elastic_at(&large, travels.map(|t| t * k), rack * k), 1e-7, |unit| match unit {
            Unit::DegreePerKilonewton => 1.0 / k,
            Unit::DegreePerHundredNewtonMetres => 1.0 / (k * k),
            Unit::Millimetre => k,
            _ => 1.0,
        });
    }

    /// Everything ten times as stiff gives way by a tenth; in the end nothing is left of it.
    #[test]
    fn stiffer_gives_way_less(layout in soft_axles(), (travels, rack) in positions()) {
        let soft = elastic_at(&layout, travels, rack);
        same(&soft, &elastic_at(&all_stiffer(&layout, 10.0), travels, rack), 1e-7, |unit| if unit == Unit::Millimetre { 1.0 } else { 0.1 });
        let rigid = elastic_at(&all_stiffer(&layout, 1e7), travels, rack);
        for (reading, value) in readings().zip(values(&rigid)).filter(|(reading, _)| reading.unit != Unit::Millimetre) {
            near(value, 0.0, 1e-6, reading.column);
        }
    }

    /// Stiffnesses of any size, on one joint or mount: a problem in a sentence, or numbers.
    #[test]
    fn any_stiffness(layout in soft_axles(), which in 0..12_usize, by in hostile_stiffness(), (travels, rack) in positions()) {
        let mut layout = layout;
        let mut values: Vec<&mut f64> = layout.stiffness.values_mut().flat_map(|b| [&mut b.radial, &mut b.axial, &mut b.along].into_iter().flatten()).collect();
        values.extend(layout.subframe.iter_mut().flat_map(|subframe| &mut subframe.mounts).flat_map(|mount| mount.stiffness.iter_mut()));
        let count = values.len();
        *values[which % count] = by;
        let problems = validate(&layout);
        prop_assert!(problems.iter().all(|problem| (20..600).contains(&problem.to_string().len())));
        prop_assert_eq!(problems.is_empty(), (1e-3..=1e12).contains(&by));
        if problems.is_empty() {
            let axle = axle(&layout);
            let [left, right] = both(&axle, travels, rack);
            let snapshot = Snapshot::alone(&axle, &left).beside(&right);
            prop_assert!(snapshot.elastic().is_some());
            prop_assert!(readings().all(|reading| (reading.value)(&snapshot).is_none_or(f64::is_finite)));
        }
    }

    /// Two in series, each twice as stiff, are one: a bush alike to all sides and the arm behind it, on any arm.
    #[test]
    fn two_in_series(index in 0..4_usize, (travels, rack) in positions(), k in 500.0..9_000.0_f64) {
        let anchor = Anchor::ALL[index].0;
        let layout = soft("four-arm", Some(3_000.0));
        let with = |bush| {
            let mut layout = layout.clone();
            layout.stiffness.insert(anchor, bush);
            elastic_at(&layout, travels, rack)
        };
        let one = with(Bush { along: Some(k), ..Bush::default() });
        let twice = Some(2.0 * k);
        same(&one, &with(Bush { radial: twice, axial: twice, along: twice, ..Bush::default() }), 1e-9, |_| 1.0);
    }
}

/// A layout without stiffnesses and subframe is rigid, and written without a word of them.
#[test]
fn a_layout_without_them_is_rigid() {
    for name in DEMOS {
        let layout = demo(name);
        assert!(Bushes::of(&axle(&layout)).is_none());
        assert!(!layout.to_json().contains("\"subframe\":") && !layout.to_json().contains("\"stiffness\":"));
        let soft = soft(name, Some(3_000.0));
        assert_eq!(Layout::from_json(&soft.to_json()).as_ref(), Ok(&soft));
    }
}

/// The story of the rack: on a body with a soft subframe, ahead of the wheel centre it steers out of a bend, behind into it; on the subframe little
/// is left. And every soft demo gives way by sizes that are common practice (no source).
#[test]
fn sizes_are_usual_and_the_rack_tells_its_story() {
    let mut odd = Vec::new();
    let mut within = |value: f64, [least, most]: [f64; 2], what: &str| {
        if !(least..=most).contains(&value.abs()) {
            odd.push(format!("{what}: {value:.3}"));
        }
    };
    let steer = |name: &str, mount, mounts| {
        let mut layout = soft(name, Some(mounts));
        layout.rack.as_mut().expect("a rack").mount = mount;
        elastic(&layout).axle_steer_side_force
    };
    let ahead = "wishbone-over-arms";
    within(steer(ahead, Mount::Subframe, 30_000.0), [0.0, 0.12], "rack on a stiff subframe");
    let out = steer(ahead, Mount::Body, 3_000.0);
    within(out, [0.1, 0.5], "rack on the body, soft mounts");
    assert!(out > 0.0, "out of the bend: {out}");
    let into = steer("four-arm", Mount::Body, 3_000.0);
    assert!(into < 0.0, "into the bend: {into}");
    for name in DEMOS {
        let is = elastic(&soft(name, None));
        within(is.camber_side_force, [0.02, 0.15], &format!("{name}: camber"));
        within(is.wheel_centre_lengthwise, [0.5, 5.0], &format!("{name}: lengthwise"));
        within(is.contact_sideways, [0.2, 1.5], &format!("{name}: sideways"));
        within(is.toe_aligning_moment, [0.05, 0.5], &format!("{name}: aligning moment"));
        assert!(
            is.contact_sideways > 0.0 && is.wheel_centre_lengthwise > 0.0 && is.toe_aligning_moment < 0.0,
            "{name}"
        );
    }
    assert!(odd.is_empty(), "{odd:#?}");
}

/// Standing is what the layout is drawn in; each wheel bears its own share of a case; a force is the same on both wheels.
#[test]
fn under_load() {
    let layout = soft("wishbone-over-arms", Some(3_000.0));
    let axle = std::rc::Rc::new(axle(&layout));
    let [left, right] = both(&axle, [10.0, 10.0], 0.0);
    let states = [&left, &right];
    let bushes = Bushes::of(&axle).expect("soft");
    let setting = Setting::of(&axle);
    let case = |key: &str| {
        let case = LoadCase::named(key).expect("a case");
        let wrenches = case_wrenches(case, &setting, states).expect("a sound vehicle");
        UnderLoad::wrenches(&bushes, &axle, states, &wrenches).expect("held")
    };
    let parts = |u: &UnderLoad| {
        let [x, y, z] = u.wheel_centre.into();
        Vector6::from([u.toe, u.camber, u.caster.expect("an axis"), x, y, z])
    };
    for standing in case("standing") {
        assert_eq!(parts(&standing), Vector6::zeros());
    }
    let same = |a: &UnderLoad, b: &UnderLoad| near((parts(a) - parts(b)).norm(), 0.0, 1e-9, "the mirror image");
    for (key, other) in [("outer", "inner"), ("braking", "braking"), ("driving", "driving"), ("reverse", "reverse")] {
        let ([left, right], [its_left, its_right]) = (case(key), case(other));
        same(&left, &its_right);
        same(&right, &its_left);
        assert!(parts(&left).norm() > 1e-2);
    }
    // What hits one wheel moves the other through the subframe only.
    let [hit, other] = case("kerb");
    assert!(parts(&other).norm() < 0.5 * parts(&hit).norm() && parts(&other).norm() > 0.0);
    // Braking winds the carrier up: its top goes forward, the wheel back.
    let [braked, _] = case("braking");
    assert!(braked.wheel_centre.x < 0.0 && braked.caster.is_some_and(|caster| caster < 0.0));
    let pushed = UnderLoad::wrenches(&bushes, &axle, states, &force_wrenches(Vec3::new(0.0, -1000.0, 0.0), states))
        .expect("held");
    assert!(pushed[0].wheel_centre.y < 0.0 && pushed[1].wheel_centre.y > 0.0, "both to the right");
}

/// One sentence a slip, with the part and the amount.
#[test]
fn slips_are_said() {
    let said = |name: &str, change: &dyn Fn(&mut Layout)| {
        let mut layout = soft(name, Some(3_000.0));
        change(&mut layout);
        let problems: Vec<String> = validate(&layout).iter().map(ToString::to_string).collect();
        assert_eq!(problems.len(), 1, "{problems:?}");
        problems[0].clone()
    };
    let put = |anchor, bush| move |layout: &mut Layout| layout.stiffness.insert(anchor, bush);
    let rubber = |radial, axial| Bush { radial: Some(radial), axial: Some(axial), ..Bush::default() };
    let along = |k| Bush { along: Some(k), ..Bush::default() };
    let mounts = |at: &'static [[f64; 3]], k: f64| {
        move |layout: &mut Layout| {
            let mounts = at.iter().map(|at| SubframeMount { at: (*at).into(), stiffness: Vec3::new(3e3, k, 3e3) });
            layout.subframe = Some(Subframe { mounts: mounts.collect(), carries: None });
        }
    };
    let carries = |names: &'static [Anchor]| {
        move |layout: &mut Layout| layout.subframe.as_mut().expect("one").carries = Some(names.to_vec())
    };
    const PAIR: &[[f64; 3]] = &[[100.0, 300.0, 250.0], [-300.0, 300.0, 250.0]];
    for (name, change, words) in [
        (
            "four-arm",
            &put(Anchor::LowerFront, rubber(-5.0, 900.0)) as &dyn Fn(&mut Layout),
            ["“radial” of “lower.front” is -5 N/mm", "between 0.001 and 1e12"],
        ),
        (
            "four-arm",
            &put(Anchor::UpperRear, rubber(900.0, 0.0)),
            ["“axial” of “upper.rear” is 0 N/mm", "Leave the entry out"],
        ),
        ("four-arm", &put(Anchor::TrackRod, along(f64::INFINITY)), ["“along” of “track_rod” is inf", "between"]),
        ("four-arm", &put(Anchor::Rack, along(f64::NAN)), ["“along” of “rack” is NaN", "between"]),
        ("strut", &put(Anchor::UpperFront, rubber(900.0, 900.0)), ["“upper.front”", "does not have"]),
        ("four-arm", &put(Anchor::StrutTop, rubber(900.0, 900.0)), ["“strut.top”", "does not have"]),
        ("five-rod-unsteered", &put(Anchor::Rack, along(8e3)), ["“rack”", "does not have"]),
        ("strut", &put(Anchor::LowerRear, Bush { along: Some(8e3), ..rubber(9e3, 9e3) }), ["“lower.rear”", "“along”"]),
        ("strut", &put(Anchor::StrutTop, Bush { along: Some(8e3), ..rubber(9e3, 9e3) }), ["“strut.top”", "“along”"]),
        ("strut", &put(Anchor::TrackRod, rubber(9e3, 9e3)), ["“track_rod” has a bush", "on the rack"]),
        ("strut", &put(Anchor::Rack, rubber(9e3, 9e3)), ["The rack has a bush", "“along”"]),
        (
            "four-arm",
            &put(Anchor::LowerRear, Bush { axial: None, ..rubber(9e3, 9e3) }),
            ["“lower.rear” has no stiffness “axial”", "both"],
        ),
        ("four-arm", &put(Anchor::LowerRear, Bush::default()), ["“lower.rear”", "no stiffness"]),
        (
            "four-arm",
            &put(Anchor::LowerRear, Bush { axis: Some(Vec3::zeros()), ..rubber(9e3, 9e3) }),
            ["“lower.rear” has the length 0", "direction"],
        ),
        (
            "four-arm",
            &put(Anchor::LowerRear, Bush { torsion: Some(-1.0), ..rubber(9e3, 9e3) }),
            ["“lower.rear” is -1 N·m/°", "between 0"],
        ),
        ("four-arm", &mounts(&[[100.0, 300.0, 250.0]], 3e3), ["has 1 mount on the left", "two at least"]),
        ("four-arm", &mounts(&[], 3e3), ["has 0 mounts on the left", "two at least"]),
        ("four-arm", &mounts(&[[100.0, 300.0, 250.0], [100.5, 500.0, 250.0]], 3e3), ["within 0.", "one line"]),
        ("four-arm", &mounts(&[[100.0, 0.0, 250.0], [-300.0, 0.0, 270.0]], 3e3), ["within 0.000 mm", "one line"]),
        (
            "four-arm",
            &mounts(&[[100.0, -300.0, 250.0], [-300.0, 300.0, 250.0]], 3e3),
            ["mount 1 is at y = -300 mm", "left mounts"],
        ),
        (
            "four-arm",
            &mounts(&[[100.0, 300.0, 250.0], [-3e5, 300.0, 250.0]], 3e3),
            ["x coordinate of the subframe’s mount 2 is -300000", "10000"],
        ),
        ("strut", &carries(&[Anchor::UpperRear]), ["carries “upper.rear”", "does not have"]),
        ("five-rod-unsteered", &carries(&[Anchor::Rack]), ["carries “rack”", "does not have"]),
        ("strut", &carries(&[Anchor::TrackRod]), ["carries “track_rod”", "name “rack” instead"]),
        (
            "strut",
            &|layout| {
                layout.stiffness = Few::default();
                carries(&[Anchor::LowerRear])(layout);
            },
            ["“lower.rear” is on the subframe and its joint “lower.front” on the body", "Give one a bush"],
        ),
    ] {
        let said = said(name, change);
        assert!(words.iter().all(|word| said.contains(word)) && said.ends_with('.') && !said.contains('\n'), "{said}");
    }
    let mut layout = soft("four-arm", None);
    mounts(PAIR, -1.0)(&mut layout);
    let problems = validate(&layout);
    assert_eq!(problems.len(), 2, "each of two mounts: {problems:?}");
    assert!(problems[0].to_string().contains("along y of the subframe’s mount 1 is -1 N/mm"));
    let file = |entry: &str| {
        let text = demo("strut").to_json();
        Layout::from_json(&text.replacen('{', &format!("{{{entry},"), 1)).expect_err("no layout")
    };
    for (entry, words) in [
        (r#""stiffness": {"lower.middle": {}}"#, "“stiffness” has an unknown entry “lower.middle”"),
        (r#""stiffness": {"lower.front": {"radial": "9"}}"#, "“stiffness.lower.front.radial” must be a number"),
        (r#""stiffness": [1]"#, "“stiffness” must be an object"),
        (r#""subframe": {"mounts": 3}"#, "“subframe.mounts” must be a list"),
        (
            r#""subframe": {"mounts": [{"at": [1,2], "stiffness": [1,2,3]}]}"#,
            "“subframe.mounts, 1.at” must be three numbers",
        ),
        (r#""subframe": {"mounts": [], "carries": ["engine"]}"#, "“subframe.carries” may list: lower.front,"),
    ] {
        assert!(file(entry).contains(words), "{}", file(entry));
    }
}
