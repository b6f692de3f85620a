//! Wheel space: against meshes that manifold3d unites and measures (`reference/space_reference.py`), laws, and bad input.
//! Long because each law and each slip is a case of its own.

use kernel::frame::mirror;
use kernel::space::{Envelope, Gap, Grid, Piece, Pieces, Seen, Space, Tyre, outlines};
use kernel::{
    Axle, Demand, Few, Guide, Layout, LeftOrRight, Member, Obstacle, PointId, Reading, Rod, Snapshot, Solid, State,
    Stops, Vec3, Wheel, validate,
};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::f64::consts::PI;
use tests::{DEMOS, axle, demo, example, near};

/// The promise: litres within 0.5 % of the union of those positions.
const PROMISED: f64 = 0.005;

const LEFT: LeftOrRight = LeftOrRight::Left;

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().expect("a list").iter().map(number).collect()
}

fn witness() -> Value {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/reference/space.json");
    serde_json::from_str(&std::fs::read_to_string(path).expect("the reference")).expect("JSON")
}

#[test]
fn meshes_united_have_these_litres() {
    let file = witness();
    for (name, of) in file["axles"].as_object().expect("axles") {
        let layout = Layout::from_value(&of["layout"]).unwrap_or_else(|why| panic!("{name}: {why}"));
        let racks = if layout.rack.is_some() { numbers(&file["racks"]) } else { vec![0.0] };
        let space = Space::over(&axle(&layout), LEFT, &Grid { travels: numbers(&file["travels"]), racks });
        let unreached: Vec<Value> =
            space.unreached().iter().map(|at| json!([at.travel as i64, at.rack as i64])).collect();
        assert_eq!(json!(unreached), of["unreached"], "{name}");
        for (i, side) in numbers(&file["sides"]).into_iter().enumerate() {
            let [all, ahead] = [&of["litres"][i], &of["ahead"][i]].map(number);
            near(space.litres(side), all, PROMISED * all, name);
            near(space.turning_litres(side), all - ahead, PROMISED * all, name);
        }
    }
}

/// Pieces that the reference has as meet, meet here; others are as far apart, to the mesh: it lies inside round bodies, so that a distance there is
/// too large by up to `mesh` mm, and too small by up to `barrel` in the barrel.
#[test]
fn meshes_are_as_far_apart() {
    let file = witness();
    let [far, mesh, barrel] = ["far", "mesh", "barrel"].map(|name| number(&file[name]));
    let (mut seen, mut meet, mut wrong) = (0, 0, Vec::new());
    for (name, of) in file["axles"].as_object().expect("axles") {
        let layout = Layout::from_value(&of["layout"]).unwrap_or_else(|why| panic!("{name}: {why}"));
        let axle = axle(&layout);
        let corner = Pieces::of(&axle, LEFT);
        for at in of["gaps"].as_array().expect("a list") {
            let state = axle.state(Demand::new(number(&at["travel"]), number(&at["rack"]))).expect("a pose");
            let gaps = corner.gaps(&state.position);
            let pairs = at["pairs"].as_array().expect("a list");
            assert_eq!(gaps.len(), pairs.len(), "{name}");
            for pair in pairs {
                let names = [0, 1].map(|i| pair[i].as_str().expect("a name").to_string());
                let same = |[a, b]: [Piece; 2]| {
                    let own = [a, b].map(|piece| piece.name(&layout));
                    own == names || [&own[1], &own[0]] == [&names[0], &names[1]]
                };
                let is = gaps.iter().find(|gap| same(gap.between)).unwrap_or_else(|| panic!("{name}: {names:?}")).value;
                let should = number(&pair[2]);
                let well = match should {
                    0.0 => is <= 0.0,
                    should if should >= far => is >= far - mesh,
                    // A mesh can stand clear of what the body itself touches.
                    should => (should - mesh..=should + barrel).contains(&is.max(0.0)),
                };
                if !well {
                    wrong.push(format!("{name} at {}, {}: {names:?}: {is}, not {should}", at["travel"], at["rack"]));
                }
                (seen, meet) = (seen + 1, meet + usize::from(should == 0.0));
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {seen}:\n{}", wrong.len(), wrong.join("\n"));
    assert!(seen > 1_000 && meet > 20, "{seen} distances, {meet} of pieces that meet");
}

fn wheel(radius: f64, width: f64) -> Wheel {
    Wheel { free_radius: radius, width, ..demo("strut").wheel }
}

fn tyre(centre: Vec3, spin: Vec3) -> Tyre {
    Tyre::new(&wheel(316.0, 205.0), centre, spin.normalize())
}

fn envelope(tyres: &[Tyre], side: f64) -> Envelope {
    let mut envelope = Envelope::with_columns(side);
    tyres.iter().for_each(|tyre| envelope.add(tyre));
    envelope
}

/// The volume of a tyre by its section: a disc of the core's radius and full width, a band of full radius and the tread's width, and four quarters of
/// the shoulder's circle turned about the axis (Pappus: area times the way of its centre, 4 s/(3π) from the quarter's corner).
fn volume(tyre: &Tyre) -> f64 {
    let (r, s, half) = (tyre.flank(), tyre.shoulder, tyre.half);
    let core = PI * r * r * 2.0 * half;
    let band = PI * ((r + s).powi(2) - r * r) * 2.0 * tyre.tread();
    let quarters = 2.0 * (PI * s * s / 4.0) * 2.0 * PI * (r + 4.0 * s / (3.0 * PI));
    (core + band + quarters) * 1e-6
}

proptest! {
    #![proptest_config(tests::cases(24))]

    /// Whatever way a wheel is turned, one tyre has its own volume.
    #[test]
    fn one_tyre_has_its_volume(steer in -50.0..50.0_f64, camber in -10.0..10.0_f64, x in -20.0..20.0_f64) {
        let (sin, cos) = steer.to_radians().sin_cos();
        let tyre = tyre(Vec3::new(x, 765.0, 305.0 + x / 3.0), Vec3::new(-sin, cos, camber.to_radians().tan()));
        let is = envelope(&[tyre], 8.0).litres(f64::INFINITY);
        prop_assert!((is / volume(&tyre) - 1.0).abs() < PROMISED / 2.0, "{is}, not {}", volume(&tyre));
    }

    /// A furthest point reaches as far as the support says and lies on the tyre.
    #[test]
    fn the_furthest_point_reaches_as_far_as_the_support(x in -1.0..1.0_f64, y in -1.0..1.0_f64, z in -1.0..1.0_f64) {
        let (tyre, d) = (tyre(Vec3::new(1.0, 765.0, 305.0), Vec3::new(0.3, 1.0, -0.05)), Vec3::new(x, y, z));
        prop_assume!(d.norm() > 0.01);
        let d = d.normalize();
        let at = tyre.furthest(d);
        prop_assert!((at.dot(&d) - tyre.support(d)).abs() < 1e-9);
        prop_assert!(tyre.distance(tyre.section(at)).abs() < 1e-9);
    }
}

/// A wheel that only turns about its own axis, or stands still, takes no more room.
#[test]
fn a_wheel_that_stands_takes_no_more_room() {
    let one = tyre(Vec3::new(3.0, 765.0, 305.0), Vec3::new(0.4, 1.0, 0.02));
    let alone = envelope(&[one], 8.0).litres(800.0);
    near(envelope(&[one; 5], 8.0).litres(800.0), alone, 1e-12, "the same five times");
}

/// A wheel straight ahead moved up by h sweeps its section across the way times h more: its volume and the prism over its shadow from above. The
/// steps of h/60 leave scallops between two tyres, d²/8R deep (0.03 mm) on 316 mm.
#[test]
fn a_wheel_moved_straight_up_adds_a_prism() {
    let h = 90.0;
    let at = |i: i32| tyre(Vec3::new(0.0, 765.0, 305.0 + h * f64::from(i) / 60.0), Vec3::y());
    let tyres: Vec<Tyre> = (0..=60).map(at).collect();
    let (one, s) = (tyres[0], tyres[0].shoulder);
    let shadow = 4.0 * one.radius * one.half - (4.0 - PI) * s * s;
    let should = volume(&one) + shadow * h * 1e-6;
    near(envelope(&tyres, 8.0).litres(f64::INFINITY), should, PROMISED / 2.0 * should, "litres");
    near(envelope(&tyres, 2.0).litres(f64::INFINITY), should, PROMISED / 25.0 * should, "litres of finer columns");
}

/// Tyres apart from each other count singly, also in one column.
#[test]
fn tyres_apart_add_up() {
    let apart = [0.0, 500.0, 230.0].map(|y| tyre(Vec3::new(0.0, y, 305.0), Vec3::y()));
    near(
        envelope(&apart, 8.0).litres(f64::INFINITY),
        3.0 * envelope(&apart[..1], 8.0).litres(f64::INFINITY),
        1e-9,
        "litres",
    );
    near(
        envelope(&apart, 8.0).litres(365.0),
        2.0 * envelope(&apart[..1], 8.0).litres(f64::INFINITY),
        1e-9,
        "inboard of a plane",
    );
}

#[test]
fn more_positions_never_take_less() {
    let axle = axle(&demo("four-arm"));
    let mut space = Space::of(&axle, LEFT);
    let (mut before, mut least) = (0.0, f64::INFINITY);
    for demand in Grid::usual(axle.layout()).demands() {
        space.meet(demand);
        let now = space.litres(space.pieces().side_plane());
        let nearest = space.clearances()[0].value;
        assert!(now >= before && nearest <= least, "{now} after {before}, {nearest} after {least}");
        (before, least) = (now, nearest);
    }
}

/// A layout drawn k times as large.
fn scaled(layout: &Layout, k: f64) -> Layout {
    let mut large = layout.clone();
    for (id, at) in layout.points() {
        large.point_mut(id).into_iter().for_each(|point| *point = at * k);
    }
    let wheel = &mut large.wheel;
    for size in [&mut wheel.loaded_radius, &mut wheel.free_radius, &mut wheel.width] {
        *size *= k;
    }
    large.rack.iter_mut().for_each(|rack| rack.travel *= k);
    large
}

/// Twice as large, everything is twice as far and eight times as roomy; but the shoulder of 40 mm and the disc keep their sizes, so the tyre is small
/// enough here that its shoulder grows along, and members are looked at that stay clear of the disc.
#[test]
fn a_larger_axle_takes_room_by_its_cube() {
    let mut layout = demo("wishbone-over-arms");
    layout.wheel.width = 78.0;
    let sizes = |k: f64| Solid {
        arm: Some(30.0 * k),
        track_rod: Some(18.0 * k),
        spring: Some(110.0 * k),
        half_shaft: Some(30.0 * k),
        ..Solid::default()
    };
    layout.solid = Some(sizes(1.0));
    let mut large = scaled(&layout, 0.5);
    large.solid = Some(sizes(0.5));
    let grid = |k: f64| Grid { travels: vec![-40.0 * k, 0.0, 40.0 * k], racks: vec![-50.0 * k, 0.0, 50.0 * k] };
    let [one, half] = [(&layout, 1.0), (&large, 0.5)].map(|(layout, k)| Space::over(&axle(layout), LEFT, &grid(k)));
    near(half.litres(1e4) * 8.0, one.litres(1e4), PROMISED * one.litres(1e4), "litres");
    for (a, b) in one.reach().named().zip(half.reach().named()) {
        near(b.1.value * 2.0, a.1.value, 1e-6, a.0);
    }
    let mut compared = 0;
    for ours in one.clearances().iter().filter(|gap| !gap.between.contains(&Piece::HalfShaft)) {
        let theirs = half.clearances().into_iter().find(|gap| gap.between == ours.between).expect("the same pair");
        near(theirs.value * 2.0, ours.value, 1e-4, &format!("{:?}", ours.between));
        compared += 1;
    }
    assert!(compared > 10);
}

/// The right wheel, seen as a left one, meets the same; of boxes, it meets what its mirror image would.
#[test]
fn the_right_wheel_meets_the_mirror_image() {
    let one = |mirrored, y: f64| {
        let [from, to] = [Vec3::new(-200.0, y, 330.0), Vec3::new(250.0, y + 60.0, 800.0)];
        Obstacle { name: "engine".into(), from, to, mirrored }
    };
    let gap = |obstacle: Obstacle, side| {
        let layout = Layout { boxes: vec![obstacle], ..demo("four-arm") };
        let axle = axle(&layout);
        let corner = Pieces::of(&axle, side);
        let gaps = corner.gaps(&axle.stands().position);
        gaps.into_iter().find(|gap| gap.between == [Piece::Wheel, Piece::Box(0)]).expect("a pair").value
    };
    let right = LeftOrRight::Right;
    let (near_left, far) = (gap(one(None, 400.0), LEFT), gap(one(None, 400.0), right));
    assert!(near_left < 300.0 && far > 800.0, "{near_left}, {far}");
    let image = Obstacle { from: mirror(one(None, 400.0).from), to: mirror(one(None, 400.0).to), ..one(None, 400.0) };
    near(gap(image, right), near_left, 1e-9, "its image on the right");
    for side in LeftOrRight::BOTH {
        near(gap(one(Some(true), 400.0), side), near_left, 1e-9, "on both sides");
    }
}

/// Members with one joint in common, a spring and what it rides on, and a strut and its spring are no pairs.
#[test]
fn what_is_connected_is_no_pair() {
    let pairs = |layout: &Layout| Pieces::of(&axle(layout), LEFT).pairs().to_vec();
    let member = Piece::Member;
    let has = |layout: &Layout, a, b| pairs(layout).iter().any(|pair| *pair == [a, b] || *pair == [b, a]);
    let strut = demo("strut");
    assert!(!has(&strut, member(Member::LowerFront), member(Member::LowerRear)), "legs of a wishbone");
    assert!(!has(&strut, member(Member::Strut), Piece::Spring));
    assert!(has(&strut, member(Member::Strut), member(Member::TrackRod)));
    let four = demo("four-arm");
    assert!(has(&four, member(Member::LowerFront), member(Member::LowerRear)), "two arms");
    assert!(!has(&four, member(Member::LowerFront), Piece::Spring), "rides on it");
    assert!(has(&four, member(Member::LowerRear), Piece::Spring));
    let mut joined = four;
    if let Guide::Arms { front, rear } = &mut joined.lower {
        *rear = Rod { outer: front.outer, ..*rear };
    }
    assert!(!has(&joined, member(Member::LowerFront), member(Member::LowerRear)), "one joint for both");
}

/// A member bent at points of its own straight line is the straight one, wherever the wheel is.
#[test]
fn a_bend_on_the_line_changes_nothing() {
    for name in DEMOS {
        let layout = demo(name);
        let mut bent = layout.clone();
        let of = Pieces::of(&axle(&layout), LEFT);
        let rest = kernel::Position::at_rest(of.linkage());
        let mut via = Few::default();
        for member in [Member::LowerFront, Member::LowerRear, Member::UpperFront, Member::UpperRear] {
            if let Some((line, _)) = of.line(Piece::Member(member), &rest) {
                via.insert(member, [0.3, 0.8].map(|part| line[0] + (line[1] - line[0]) * part).to_vec());
            }
        }
        bent.solid = Some(Solid { via, ..layout.solid() });
        let corner = Pieces::of(&axle(&bent), LEFT);
        let state =
            axle(&layout).state(Demand::new(35.0, if layout.rack.is_some() { 30.0 } else { 0.0 })).expect("a pose");
        for (a, b) in of.gaps(&state.position).iter().zip(corner.gaps(&state.position)) {
            near(a.value, b.value, 1e-5, name);
        }
    }
}

/// The reading “least gap” is the least of all.
#[test]
fn the_least_gap_is_the_least() {
    let axle = axle(&demo("strut"));
    let corner = Pieces::of(&axle, LEFT);
    let state = axle.state(Demand::new(-20.0, 40.0)).expect("a pose");
    let least = corner.least_gap(&state.position).expect("pieces");
    assert!(corner.apart(&state.position).iter().all(|gap| gap.value >= least.value));
}

/// At rest no member of a demo meets another: what runs through a spring or a strut there is what that is built round, and nothing else is; a wheel or a
/// box is never passed over, nor a member that meets another one.
#[test]
fn a_spring_or_strut_is_built_round_what_runs_through_it_at_rest() {
    let member = Piece::Member;
    for name in DEMOS {
        let axle = axle(&demo(name));
        let corner = Pieces::of(&axle, LEFT);
        let rest = axle.stands().position;
        let of_members = |gap: &Gap| !gap.between.contains(&Piece::Wheel);
        for gap in corner.gaps(&rest).into_iter().filter(of_members) {
            let upright = gap.between.iter().any(|one| [Piece::Spring, member(Member::Strut)].contains(one));
            assert_eq!(corner.through().contains(&gap.between), gap.value <= 0.0, "{name}: {gap:?}");
            assert!(upright || gap.value > 0.0, "{name}: {gap:?}");
        }
        assert!(corner.apart(&rest).iter().filter(|gap| of_members(gap)).all(|gap| gap.value > 0.0), "{name}");
        assert!(corner.through().iter().flatten().all(|one| *one != Piece::Wheel), "{name}");
    }
    let shafts = |name: &str| {
        Pieces::of(&axle(&demo(name)), LEFT).through().iter().flatten().any(|one| *one == Piece::HalfShaft)
    };
    assert!(shafts("strut") && shafts("four-arm") && !shafts("five-rod-unsteered"));
    let mut layout = demo("strut");
    let at = layout.point(PointId::StrutTop).expect("a strut");
    let [from, to] = [at - Vec3::repeat(40.0), at];
    layout.boxes = vec![Obstacle { name: "tower".into(), from, to, mirrored: None }];
    layout.track_rod.inner = layout.point(PointId::LowerRearInner).expect("a leg") + Vec3::new(0.0, 0.0, 5.0);
    let crossed = axle(&layout);
    let corner = Pieces::of(&crossed, LEFT);
    let met =
        |a, b| corner.apart(&crossed.stands().position).iter().any(|gap| gap.between == [a, b] && gap.value <= 0.0);
    assert!(met(Piece::Spring, Piece::Box(0)) && met(member(Member::LowerRear), member(Member::TrackRod)));
}

/// A margin round a tyre: every point is nearer by it, the outline is that of the support with the margin added, and the volume is that of a convex body
/// with a ball of the margin moved over it, Steiner's (J. Steiner, 1840): of a cylinder of radius a and height h with a ball of radius r it is
/// πa²h + 2πa(a + h) r + π(h + πa) r² + 4/3 πr³.
#[test]
fn a_margin_is_a_ball_moved_over_the_tyre() {
    // Of the volume: columns of 8 mm.
    const COLUMNS: f64 = 1e-3;
    let axle = axle(&demo("strut"));
    let tyre = Pieces::of(&axle, LEFT).tyre(&axle.stands().position);
    for margin in [5.0, 15.0, 60.0] {
        let wide = tyre.with_margin(margin);
        for at in [[400.0, 0.0], [10.0, 300.0], [350.0, -160.0]] {
            near(tyre.distance(at) - wide.distance(at), margin, 1e-9, "nearer");
        }
        let (a, h, r) = (tyre.flank(), 2.0 * tyre.tread(), tyre.shoulder + margin);
        let volume =
            PI * a * a * h + 2.0 * PI * a * (a + h) * r + PI * (h + PI * a) * r * r + 4.0 / 3.0 * PI * r.powi(3);
        let mut envelope = Envelope::default();
        envelope.add(&wide);
        near(envelope.litres(1e4) / (volume * 1e-6), 1.0, COLUMNS, "Steiner's volume");
        for seen in [Seen::Front, Seen::Side, Seen::Plan] {
            assert_eq!(outlines(&[tyre], seen, margin).len(), outlines(&[wide], seen, 0.0).len());
            for (p, q) in
                outlines(&[tyre], seen, margin).iter().flatten().zip(outlines(&[wide], seen, 0.0).iter().flatten())
            {
                near((p - q).norm(), 0.0, 1e-6, "one outline");
            }
        }
    }
}

/// The ends of a gap are as far apart as the kernel's distance, which meshes have witnessed, says.
#[test]
fn a_gap_s_ends_are_as_far_apart_as_the_pieces() {
    // mm; walking from piece to piece comes to rest slowly along nearly parallel members.
    const DRAWN: f64 = 0.1;
    for name in DEMOS {
        let mut layout = demo(name);
        layout.boxes = vec![Obstacle {
            name: "rail".into(),
            from: Vec3::new(-500.0, 300.0, 350.0),
            to: Vec3::new(500.0, 420.0, 480.0),
            mirrored: None,
        }];
        let axle = axle(&layout);
        let pieces = Pieces::of(&axle, LEFT);
        let rack = layout.rack.as_ref().map_or(0.0, |rack| rack.travel / 2.0);
        for (travel, rack) in [(0.0, 0.0), (40.0, rack), (-40.0, -rack)] {
            let Ok(state) = axle.state(Demand::new(travel, rack)) else { continue };
            for gap in pieces.gaps(&state.position).into_iter().filter(|gap| gap.value > 0.0) {
                let [a, b] = pieces.nearest(gap.between, &state.position).expect("both pieces");
                near((a - b).norm(), gap.value, DRAWN, &format!("{name}: {:?} at {travel}, {rack}", gap.between));
            }
        }
    }
}

/// The readings of gaps are the least of the distances, of the wheel's and of all, for the wheel that is looked at; 0 where something meets. A wall
/// beside the tyre is as far from it as the tyre's support says.
#[test]
fn readings_of_gaps_are_the_least_distances() {
    let read = |axle: &Axle, state: &State, column: &str| {
        let reading = Reading::named(column).expect("a reading");
        (reading.value)(&Snapshot::alone(axle, state)).expect("a gap")
    };
    for name in DEMOS {
        for side in LeftOrRight::BOTH {
            let axle = axle(&demo(name)).looking_at(side);
            let Ok(state) = axle.state(Demand::new(10.0, 0.0)) else { panic!("{name}") };
            let gaps = Pieces::of(&axle, side).apart(&state.position);
            let least = |of: &dyn Fn(&&Gap) -> bool| {
                gaps.iter().filter(of).map(|gap| gap.value).fold(f64::INFINITY, f64::min).max(0.0)
            };
            assert_eq!(read(&axle, &state, "least_gap_mm"), least(&|_| true), "{name}");
            let of_wheel = least(&|gap: &&Gap| gap.between.contains(&Piece::Wheel));
            assert_eq!(read(&axle, &state, "wheel_gap_mm"), of_wheel, "{name}");
        }
    }
    let mut layout = demo("strut");
    let plain = axle(&layout);
    let state = plain.state(Demand::new(0.0, 0.0)).expect("rest");
    let outermost = Pieces::of(&plain, LEFT).tyre(&state.position).support(Vec3::y());
    let [from, to] = [Vec3::new(-900.0, outermost + 4.0, -100.0), Vec3::new(900.0, outermost + 50.0, 900.0)];
    layout.boxes = vec![Obstacle { name: "wall".into(), from, to, mirrored: None }];
    let walled = axle(&layout);
    near(read(&walled, &state, "wheel_gap_mm"), 4.0, 1e-9, "the wall");
}

/// Twice the area that closed lines go round to the left.
fn area(lines: &[Vec<Vec3>], [u, v]: [usize; 2]) -> f64 {
    let of = |line: &Vec<Vec3>| {
        let next = line.iter().cycle().skip(1);
        line.iter().zip(next).map(|(a, b)| a[u] * b[v] - a[v] * b[u]).sum::<f64>() / 2.0
    };
    lines.iter().map(of).sum()
}

/// The outline of one tyre straight ahead: a circle from the side, a rectangle with rounded corners from ahead and above; a margin rounds it further.
#[test]
fn a_tyre_has_its_outline() {
    let one = [tyre(Vec3::new(10.0, 765.0, 305.0), Vec3::y())];
    let (r, half, s) = (one[0].radius, one[0].half, one[0].shoulder);
    for margin in [0.0, 15.0] {
        let (r, half, s) = (r + margin, half + margin, s + margin);
        let shadow = 4.0 * r * half - (4.0 - PI) * s * s;
        for (seen, axes, should) in
            [(Seen::Side, [0, 2], PI * r * r), (Seen::Front, [1, 2], shadow), (Seen::Plan, [0, 1], shadow)]
        {
            let lines = outlines(&one, seen, margin);
            assert_eq!(lines.len(), 1, "{seen:?}");
            near(area(&lines, axes), should, 1e-3 * should, "area");
        }
        let side = outlines(&one, Seen::Side, margin).concat();
        // Tangents 3° apart meet so far outside of the circle.
        let away = r / (PI / 120.0).cos() - r + 1e-6;
        assert!(side.iter().all(|p| ((p.x - 10.0).hypot(p.z - 305.0) - r).abs() < away));
    }
}

/// Two tyres apart have two outlines; a ring of tyres has a hole, whose outline runs the other way.
#[test]
fn outlines_are_as_many_as_pieces_and_holes() {
    let apart = [0.0, 500.0].map(|y| tyre(Vec3::new(0.0, y, 305.0), Vec3::y()));
    assert_eq!(outlines(&apart, Seen::Plan, 0.0).len(), 2);
    let ring: Vec<Tyre> = (0..24)
        .map(|i| {
            let (sin, cos) = (f64::from(i) * PI / 12.0).sin_cos();
            tyre(Vec3::new(900.0 * cos, 900.0 * sin, 305.0), Vec3::new(cos, sin, 0.0))
        })
        .collect();
    let lines = outlines(&ring, Seen::Plan, 0.0);
    let areas: Vec<f64> = lines.iter().map(|line| area(std::slice::from_ref(line), [0, 1])).collect();
    assert!(areas.len() == 2 && areas.iter().any(|a| *a < 0.0) && areas.iter().any(|a| *a > 0.0), "{areas:?}");
}

/// The deepest level of the arch is the tyre's least y; a contour lies where the tyre's face is that deep.
#[test]
fn contours_show_the_depth() {
    let turned = tyre(Vec3::new(0.0, 765.0, 305.0), Vec3::new(0.3, 1.0, 0.0));
    let depth = envelope(&[turned], 8.0).depth();
    let deepest = depth.least.iter().flatten().copied().fold(f64::INFINITY, f64::min);
    near(deepest, -turned.support(-Vec3::y()), 1.0, "the deepest column");
    let lines = depth.contour(700.0);
    assert!(!lines.is_empty());
    let flat = |p: &&Vec3| turned.section(**p)[0] < turned.flank() - 10.0;
    let on_face: Vec<&Vec3> = lines.iter().flat_map(|line| &line.points).filter(flat).collect();
    assert!(on_face.len() > 20);
    for p in on_face {
        near(turned.section(*p)[1], -turned.half, 1e-6, "on the inboard face");
    }
    assert!(depth.contour(0.0).is_empty());
}

#[test]
fn the_usual_grid_goes_from_stop_to_stop() {
    let mut layout = demo("strut");
    let grid = Grid::usual(&layout);
    assert_eq!((grid.travels.len(), grid.racks.len()), (13, 11));
    assert_eq!((grid.travels[0], grid.travels[12], grid.racks[5]), (-60.0, 60.0, 0.0));
    assert_eq!(grid.ahead().count(), 0);
    layout.stops = Some(Stops { bump: 70.0, rebound: 80.0 });
    assert_eq!(Grid::usual(&layout).travels[0], -80.0);
    assert_eq!(Grid::usual(&demo("five-rod-unsteered")).racks, [0.0]);
    assert_eq!(Grid { travels: vec![0.0, 1.0], racks: vec![5.0] }.ahead().count(), 2);
}

/// A grid without the rack at 0 has its travels straight ahead solved besides: for the litres of steering, and for nothing else.
#[test]
fn straight_ahead_is_solved_besides() {
    let axle = axle(&demo("four-arm"));
    let grid =
        |racks: &[f64]| Space::over(&axle, LEFT, &Grid { travels: vec![-30.0, 0.0, 30.0], racks: racks.to_vec() });
    let [turned, ahead] = [grid(&[60.0]), grid(&[0.0])];
    near(turned.turning_litres(850.0), turned.litres(850.0) - ahead.litres(850.0), 1e-9, "litres");
    assert_eq!(ahead.turning_litres(850.0), 0.0);
    assert!(turned.clearances().iter().all(|gap| gap.at.rack == 60.0));
}

/// Every slip in boxes, thicknesses, bends and rim has its sentence.
#[test]
fn slips_have_a_sentence() {
    let plain = json!({"name": "engine", "from": [0, 0, 300], "to": [100, 300, 600]});
    let with = |part: &str, value: Value| {
        let mut file: Value = serde_json::from_str(&demo("strut").to_json()).expect("JSON");
        match part {
            "rim" => file["wheel"]["rim_radius"] = value,
            part => file[part] = value,
        }
        match Layout::from_value(&file) {
            Err(sentence) => vec![sentence],
            Ok(layout) => validate(&layout).iter().map(ToString::to_string).collect(),
        }
    };
    let box_with = |key: &str, value: Value| {
        let mut one = plain.clone();
        one[key] = value;
        json!([one])
    };
    let many: Vec<Value> = (0..13).map(|i| box_with("name", json!(format!("box {i}")))[0].clone()).collect();
    for (part, value, begins) in [
        ("boxes", json!("three"), "This is not a layout file: “boxes” must be a list"),
        ("boxes", box_with("colour", json!(3)), "This is not a layout file: “boxes, 1” has an unknown entry “colour”"),
        ("boxes", box_with("from", json!([1, 2])), "This is not a layout file: “boxes, 1.from” must be three numbers"),
        (
            "boxes",
            box_with("mirrored", json!(1)),
            "This is not a layout file: “boxes, 1.mirrored” must be true or false",
        ),
        ("boxes", box_with("to", json!([1, 20_000, 3])), "The y coordinate of “to” of the box “engine” is 20000"),
        ("boxes", box_with("name", json!(" ")), "Box 1 needs a name of 1 to 40 characters."),
        ("boxes", box_with("name", json!("wheel")), "A box is called “wheel” like another box or a part of the axle"),
        ("boxes", json!([plain, plain]), "A box is called “engine” like another box"),
        ("boxes", json!(many), "The layout has 13 boxes; it may have 12 at most."),
        ("solid", json!({"arm": {"lower": 30}}), "This is not a layout file: “solid.arm” must be a number"),
        ("solid", json!({"arms": 30}), "This is not a layout file: “solid” has an unknown entry “arms”"),
        ("solid", json!({"arm": -30}), "The arms’ diameter is -30 mm; it must be between 1 and 500 mm."),
        ("solid", json!({"spring_seat": 1e9}), "The distance from top mount to spring seat is"),
        (
            "solid",
            json!({"via": {"rack": [[1, 2, 3]]}}),
            "This is not a layout file: “solid.via” has an unknown entry “rack”",
        ),
        (
            "solid",
            json!({"via": {"upper.rear": [[1, 2, 3]]}}),
            "“via” gives bends of “upper.rear”, which this axle does not have.",
        ),
        (
            "solid",
            json!({"via": {"lower.rear": [1, 2, 3]}}),
            "This is not a layout file: “solid.via.lower.rear” must be a list of points",
        ),
        ("solid", json!({"via": {"lower.rear": []}}), "“via” gives 0 points for “lower.rear”"),
        ("solid", json!({"via": {"lower.rear": [[1, 2, 1e6]]}}), "The z coordinate of bend 1 of “lower.rear” is"),
        ("rim", json!(300), "The rim’s inside radius is 300 mm; it must be between 1 and 276 mm."),
        ("rim", json!("wide"), "This is not a layout file: “wheel.rim_radius” must be a number"),
    ] {
        let said = with(part, value);
        assert!(said.len() == 1 && said[0].starts_with(begins) && said[0].ends_with('.'), "{begins}: {said:?}");
    }
    assert!(with("boxes", json!([plain])).is_empty());
}

/// Boxes, thicknesses, bends and rim come back from the file they are written to.
#[test]
fn files_carry_what_is_solid() {
    let mut layout = demo("four-arm");
    let [from, to] = [Vec3::new(-1.5, 0.0, 300.0), Vec3::new(100.0, 300.0, 600.0)];
    layout.boxes = vec![Obstacle { name: "engine".into(), from, to, mirrored: Some(false) }];
    let via = [(Member::LowerRear, vec![Vec3::new(-120.0, 600.0, 205.0)])].into_iter().collect();
    layout.solid = Some(Solid { arm: Some(25.0), via, ..Solid::default() });
    layout.wheel.rim_radius = Some(170.0);
    assert_eq!(Layout::from_json(&layout.to_json()), Ok(layout));
}

#[test]
fn the_command_line_prints_keys_and_values() {
    let run = example("space", &["demo-layouts/strut.json", "--travel=-30..30/30", "--rack=0", "--side=850"]);
    let text = String::from_utf8(run.stdout).expect("a text");
    let keys: Vec<&str> = text.lines().map(|line| line.split(',').next().unwrap_or_default()).collect();
    let first = [
        "space_l",
        "turning_space_l",
        "reach_y_least_mm",
        "reach_y_most_mm",
        "reach_x_least_mm",
        "reach_x_most_mm",
        "reach_z_most_mm",
    ];
    assert_eq!(&keys[..7], first);
    assert!(keys.len() > 20 && keys[7..].iter().all(|key| *key == "clearance_mm"), "{keys:?}");
    let axle = Axle::new(&demo("strut")).expect("an axle");
    let space = Space::over(&axle, LEFT, &Grid { travels: vec![-30.0, 0.0, 30.0], racks: vec![0.0] });
    assert!(text.starts_with(&format!("space_l,{:.6}\n", space.litres(850.0))), "{text}");
    for (call, says) in [
        (vec!["demo-layouts/strut.json", "--travel=900", "--rack=0"], "The wheel reaches no position of this grid."),
        (vec!["demo-layouts/strut.json", "--side=wide"], "“wide” is not a number."),
        (vec!["demo-layouts/strut.json", "--travel=0..10000/1", "--rack=0..1/1"], "The grid has 20002 positions"),
        (vec![], "No layout file is named."),
    ] {
        let run = example("space", &call);
        let said = String::from_utf8(run.stderr).expect("a text");
        assert!(!run.status.success() && said.starts_with(says), "{call:?}: {said}");
    }
}
