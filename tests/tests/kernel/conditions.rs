//! Goals' side conditions: a joint swings no further, pieces come no nearer. Laws over the demos; what a swing and a gap are is told elsewhere
//! (`loads`, `space`).

use kernel::space::{Piece, Pieces, Space};
use kernel::vary::goals::{Aim, Answer, Condition, Freedom, Goals, Kept, Search, Wanted};
use kernel::vary::{Design, Outcome, Parameter, Quantity, read};
use kernel::{Axle, Change, Demand, Layout, LeftOrRight, Member, Obstacle, PointId, Rotation, Sides, State, Vec3};
use tests::{DEMOS, demo, near};

/// Travel of the places that are looked at, mm.
const UP: f64 = 40.0;

/// A swing is kept if it is missed by less, degrees: the pull's part of 0.1°.
const KEPT: f64 = 0.001;

fn freedom(layout: &Layout, id: PointId, axis: usize) -> Freedom {
    let now = layout.point(id).expect("every axle has it")[axis];
    Freedom { parameter: Parameter::Design(Design::Coordinate(id, axis)), range: [now - 30.0, now + 30.0] }
}

/// The present toe at travel, and what may change for the condition.
fn goals(layout: &Layout, condition: Condition) -> Goals {
    let quantity = Quantity::named("toe_deg").expect("a reading");
    let outcome = Outcome { quantity, side: LeftOrRight::Left, travel: UP, rack: 0.0 };
    let toe = read(layout, &[outcome]).expect("an axle")[0].expect("toe");
    let free = [(PointId::TrackRodInner, 2), (PointId::TrackRodInner, 1), (PointId::LowerFrontInner, 2)];
    Goals {
        free: free.map(|(id, axis)| freedom(layout, id, axis)).to_vec(),
        aims: vec![Aim { quantity, places: vec![([UP, 0.0], Wanted::Value(toe))], tolerance: 0.02 }],
        lengths: Vec::new(),
        conditions: vec![condition],
        side: LeftOrRight::Left,
        starts: 1,
        seed: 1,
    }
}

fn best(layout: &Layout, goals: Goals) -> (Answer, Layout) {
    let mut search = Search::new(layout, goals).unwrap_or_else(|why| panic!("{}: {why}", layout.name));
    search.step();
    let answer = search.answers()[0].clone();
    let layout = search.layout(&answer);
    (answer, layout)
}

fn state(layout: &Layout) -> (Axle, State) {
    let axle = Axle::new(layout).expect("an axle");
    let state = axle.state(Demand::new(UP, 0.0)).expect("a pose");
    (axle, state)
}

/// The turn of the track rod in the body, degrees: between its directions at rest and now, by their cosine.
fn turn_of_the_track_rod(layout: &Layout) -> f64 {
    let (axle, state) = state(layout);
    let [inner, outer] = [PointId::TrackRodInner, PointId::TrackRodOuter].map(|id| layout.point(id).expect("a joint"));
    let now = axle.linkage().place(&state.position.pose, 0.0, PointId::TrackRodOuter, outer) - inner;
    let before = outer - inner;
    (before.dot(&now) / before.norm() / now.norm()).acos().to_degrees()
}

/// The tilt of the track rod's outer stud, degrees: the stud stands across the rod and as near the steering axis as that lets it.
fn tilt_at_the_track_rod(layout: &Layout) -> f64 {
    let axle = Axle::new(layout).expect("an axle");
    let rest = axle.state(Demand::new(0.0, 0.0)).expect("a pose");
    let axis = rest.axis.as_ref().map_or(Vec3::z(), |axis| axis.screw.k);
    let (_, state) = state(layout);
    let [inner, outer] = [PointId::TrackRodInner, PointId::TrackRodOuter].map(|id| layout.point(id).expect("a joint"));
    let along = (outer - inner).normalize();
    let stud = (axis - along * along.dot(&axis)).normalize();
    let now = (axle.linkage().place(&state.position.pose, 0.0, PointId::TrackRodOuter, outer) - inner).normalize();
    let socket = Rotation::rotation_between(&along, &now).expect("a turn") * stud;
    let carried = state.position.pose.r * stud;
    carried.dot(&socket).clamp(-1.0, 1.0).acos().to_degrees()
}

/// The cosine of an angle of some degrees loses so many digits.
const BY_COSINE: f64 = 1e-6;

/// A swing worked out from the layout by hand.
type ByHand = fn(&Layout) -> f64;

#[test]
fn a_joint_swings_no_further_than_it_may() {
    for name in DEMOS {
        let layout = demo(name);
        let swings: [(PointId, ByHand); 2] =
            [(PointId::TrackRodInner, turn_of_the_track_rod), (PointId::TrackRodOuter, tilt_at_the_track_rod)];
        for (joint, by_hand) in swings {
            let what = format!("{name}, {}", joint.name());
            let now = by_hand(&layout);
            let condition =
                |most: f64| Condition { kept: Kept::Swing(joint), places: vec![[UP, 0.0]], range: [0.0, most] };
            // With room to spare nothing moves.
            let (spare, same) = best(&layout, goals(&layout, condition(now + 1.0)));
            assert!(spare.all_met(), "{what}: {spare:?}");
            near(spare.conditions[0][0], by_hand(&same), BY_COSINE, &what);
            near(spare.conditions[0][0], now, 1e-4, &what);
            // Without, the joints move until both are met.
            let (answer, moved) = best(&layout, goals(&layout, condition(now - 0.05)));
            assert!(answer.all_met(), "{what}: {now} {answer:?}");
            near(answer.conditions[0][0], by_hand(&moved), BY_COSINE, &what);
            assert!(by_hand(&moved) <= now - 0.05 + KEPT + BY_COSINE, "{what}: {now} {answer:?}");
        }
    }
}

#[test]
fn the_least_gap_is_told_and_moves_nothing_while_it_is_kept() {
    for name in DEMOS {
        let mut layout = demo(name);
        // Nearer to the arm than all else is to each other.
        layout.boxes.push(tray(&layout, 40.0));
        let gap = |layout: &Layout| {
            let (axle, state) = state(layout);
            let pieces = Pieces::of(&axle, LeftOrRight::Left);
            let gaps = pieces.apart(&state.position);
            gaps.iter().map(|gap| gap.value).fold(f64::INFINITY, f64::min)
        };
        let now = gap(&layout);
        let condition = |least: f64| Condition { kept: Kept::Gap(None), places: vec![[UP, 0.0]], range: [least, 1e3] };
        let (spare, same) = best(&layout, goals(&layout, condition(now - 1.0)));
        assert!(spare.all_met(), "{name}: {spare:?}");
        near(spare.conditions[0][0], gap(&same), 1e-9, name);
        near(spare.conditions[0][0], now, 1e-3, name);
    }
}

/// A box above the inner end of the lower front arm or leg, from `low` mm above it.
fn tray(layout: &Layout, low: f64) -> Obstacle {
    let above = layout.point(PointId::LowerFrontInner).expect("a joint") + Vec3::new(0.0, 60.0, low);
    let reach = Vec3::new(15.0, 15.0, 20.0);
    Obstacle { name: "tray".into(), from: above - reach, to: above + reach, mirrored: None }
}

/// The arm to the box, by hand: its line from joint to joint where the wheel is up, walked in small steps, and its radius.
fn arm_to_tray(layout: &Layout) -> f64 {
    let (axle, state) = state(layout);
    let [inner, outer] = [PointId::LowerFrontInner, PointId::LowerFrontOuter].map(|id| {
        let at = layout.point(id).or(layout.point(PointId::LowerOuter)).expect("a joint");
        axle.linkage().place(&state.position.pose, 0.0, id, at)
    });
    let pieces = Pieces::of(&axle, LeftOrRight::Left);
    let (_, radius) = pieces.line(Piece::Member(Member::LowerFront), &state.position).expect("an arm");
    let tray = &layout.boxes[0];
    let off = |p: Vec3| {
        let nearest = Vec3::from_fn(|i, _| p[i].clamp(tray.from[i], tray.to[i]));
        (p - nearest).norm()
    };
    const STEPS: usize = 100_000;
    let walked = (0..=STEPS).map(|i| off(inner.lerp(&outer, i as f64 / STEPS as f64)));
    walked.fold(f64::INFINITY, f64::min) - radius
}

/// Where a gap is too small at the start, joints move until it is not. That the gap is there then, the page's room says, which sweeps by itself, and a
/// walk along the arm.
#[test]
fn a_gap_that_is_too_small_is_brought_about() {
    for name in DEMOS {
        let mut layout = demo(name);
        layout.boxes.push(tray(&layout, 60.0));
        let between = [Piece::Box(0), Piece::Member(Member::LowerFront)];
        let gap = |layout: &Layout| {
            let mut space = Space::of(&Axle::new(layout).expect("an axle"), LeftOrRight::Left);
            space.meet(Demand::new(UP, 0.0));
            let all = space.clearances();
            all.iter().find(|one| one.between == [between[1], between[0]]).expect("a pair").value
        };
        let now = gap(&layout);
        assert!(now > 1.0, "{name}: {now}: it does not begin by meeting");
        near(now, arm_to_tray(&layout), 1e-3, name);
        let wanted = now + 5.0;
        let kept = Kept::Gap(Some(between));
        let asked = goals(&layout, Condition { kept, places: vec![[UP, 0.0]], range: [wanted, 1e3] });
        let (answer, moved) = best(&layout, asked);
        assert!(answer.all_met(), "{name}: {now} {answer:?}");
        for gap in [gap(&moved), arm_to_tray(&moved), answer.conditions[0][0]] {
            // The pull's part of a mm is what a condition is kept to.
            assert!((wanted - 0.011..wanted + 1.0).contains(&gap), "{name}: {now} wanted {wanted}: {gap}");
        }
    }
}

/// What is different on the right is asked of the right wheel: its toe is brought about there, and the left wheel has another.
#[test]
fn the_right_wheel_can_be_asked() {
    let toe = Quantity::named("toe_deg").expect("a reading");
    let at = |side| Outcome { quantity: toe, side, travel: UP, rack: 0.0 };
    for name in DEMOS {
        let mut layout = demo(name);
        let [[Some(left)], [Some(right)]] = LeftOrRight::BOTH.map(|side| {
            let mut changed = layout.clone();
            changed.changes.set(Sides::One(LeftOrRight::Right), Change::Length(Member::TrackRod), 2.0);
            [read(&changed, &[at(side)]).expect("an axle")[0]]
        }) else {
            panic!("{name}: toe")
        };
        assert!((left - right).abs() > 0.3, "{name}: {left} {right}: 2 mm of track rod are some tenths of a degree");
        layout.changes.set(Sides::One(LeftOrRight::Right), Change::Length(Member::TrackRod), 2.0);
        let condition = Condition { kept: Kept::Gap(None), places: Vec::new(), range: [0.0, 1e3] };
        let asked = Goals { conditions: Vec::new(), side: LeftOrRight::Right, ..goals(&layout, condition) };
        assert!(matches!(asked.aims[0].places[..], [(_, Wanted::Value(value))] if (value - left).abs() < 1e-9));
        let (answer, moved) = best(&layout, asked);
        assert!(answer.all_met(), "{name}: {answer:?}");
        let [of_right] = read(&moved, &[at(LeftOrRight::Right)]).expect("an axle")[..] else { panic!("{name}") };
        near(of_right.expect("toe"), left, 0.02, name);
        let [of_left] = read(&moved, &[at(LeftOrRight::Left)]).expect("an axle")[..] else { panic!("{name}") };
        assert!((of_left.expect("toe") - left).abs() > 0.2, "{name}: both sides' joints moved");
    }
}

/// A condition that no free number has anything to do with is not kept, and is told so; the aims are met all the same.
#[test]
fn what_can_t_be_kept_is_told() {
    let layout = demo("four-arm");
    let mut asked =
        goals(&layout, Condition { kept: Kept::Gap(None), places: vec![[0.0, 0.0], [UP, 0.0]], range: [500.0, 1e3] });
    asked.free.truncate(1);
    let (answer, _) = best(&layout, asked);
    assert_eq!((answer.kept.clone(), answer.conditions[0].len()), (vec![false], 2));
    assert!(!answer.all_met());
}

#[test]
fn a_file_says_conditions_as_it_says_lengths() {
    let layout = demo("four-arm");
    let file = |more: &str| {
        format!(
            r#"{{"free": [{{"parameter": "track_rod.inner.z", "range": [200, 400]}}],
                "aims": [{{"reading": "toe_deg", "value": 0.1, "tolerance": 0.01}}], {more}}}"#
        )
    };
    let text = file(
        r#""swings": [{"joint": "upper.front.outer", "travel": [-60, 60], "rack": 5, "range": [0, 25]}], "gaps": [{"range": [8, 1000]}]"#,
    );
    let goals = Goals::from_json(&text, &layout).expect("goals");
    let swing = Condition {
        kept: Kept::Swing(PointId::UpperFrontOuter),
        places: vec![[-60.0, 5.0], [60.0, 5.0]],
        range: [0.0, 25.0],
    };
    assert_eq!(
        goals.conditions,
        [swing, Condition { kept: Kept::Gap(None), places: vec![[0.0, 0.0]], range: [8.0, 1000.0] }]
    );
    for (more, says) in [
        (r#""swings": [{"joint": "upper.top", "range": [0, 25]}]"#, "“upper.top”, which is no joint of an arm"),
        (r#""swings": [{"joint": "track_rod.inner"}]"#, "“swings[0].range” must be two numbers"),
        (r#""gaps": [{"travel": [], "range": [0, 1]}]"#, "“gaps[0].travel” must be"),
        (r#""gaps": []"#, "“gaps” must have from 1"),
        (r#""gaps": [{"joint": "x", "range": [0, 1]}]"#, "joint"),
        (r#""gaps": [{"between": ["wheel"], "range": [0, 1]}]"#, "“gaps[0].between” must be two names"),
        (r#""gaps": [{"between": ["wheel", "roof"], "range": [0, 1]}]"#, "“roof”, which this axle does not have"),
        (
            r#""gaps": [{"travel": [0, 1], "rack": [0, 1, 2], "range": [0, 1]}]"#,
            "“gaps[0].rack” must be one number, or as",
        ),
        (r#""side": "middle""#, "side"),
    ] {
        let error = Goals::from_json(&file(more), &layout).map(|_| ()).expect_err(more);
        assert!(error.contains(says), "{error} – should say {says}");
    }
    let over_the_rack = file(
        r#""side": "right", "gaps": [{"between": ["track_rod", "wheel"], "travel": -20, "rack": [-30, 30], "range": [8, 100]}]"#,
    );
    let goals = Goals::from_json(&over_the_rack, &layout).expect("goals");
    let between = [Piece::Member(Member::TrackRod), Piece::Wheel];
    let gap =
        Condition { kept: Kept::Gap(Some(between)), places: vec![[-20.0, -30.0], [-20.0, 30.0]], range: [8.0, 100.0] };
    assert_eq!((goals.side, goals.conditions), (LeftOrRight::Right, vec![gap]));
    let far = file(r#""gaps": [{"travel": 900, "range": [0, 1]}]"#);
    let why = Search::new(&layout, Goals::from_json(&far, &layout).expect("goals")).map(|_| ()).expect_err("too far");
    assert!(why.to_string().contains("condition 1"), "{why}");
}
