//! Goals, without a browser: what is asked, what is refused in a sentence, what work finds, how an answer is taken, and what keeps the goal.
//! Long because all of it shares a few goals.

use crate::work::answer;
use kernel::vary::goals::{Goals, Search};
use kernel::vary::{Outcome, Quantity, read};
use kernel::{Change, Layout, LeftOrRight, Member, PointId, Sides, Vec3};
use std::ops::RangeInclusive;
use tests::{DEMOS, demo, near};
use web::app::{App, Edit, Hand, Open, Paper, Point, Stand, Step};
use web::content::demos::first;
use web::content::goal::prepared;
use web::document::goal::{Aim, Condition, Freed, Goal, Kept, LengthKept, Line, Manner, Preset, USUAL, Wanted, around};
use web::document::{Document, Papers};
use web::exchange::drafts::{Draft, open, with};
use web::link;
use web::work::goals::{Found, Question, STARTS, members};
use web::work::{Work, goals};

const OFFSET: &str = "kingpin_offset_wheel_centre_mm";

fn aim(reading: &str, travel: &[f64], wanted: Wanted) -> Aim {
    Aim { reading: reading.into(), travel: travel.to_vec(), rack: 0.0, wanted }
}

/// A document with this goal.
fn with_goal(layout: Layout, goal: Goal) -> Document {
    let mut document = Document::of(layout);
    document.papers.goal = Some(Box::new(goal));
    document
}

/// Toe held over the travel by the track rod's inner joint: what every axle can be asked.
fn toe(layout: &Layout) -> Goal {
    let range = Wanted::Range([layout.wheel.toe - 0.05, layout.wheel.toe + 0.05]);
    let free = Preset::Rack.freed(layout);
    Goal { free, aims: vec![aim("toe_deg", &[-30.0, 0.0, 30.0], range)], ..Goal::default() }
}

fn found(document: &Document) -> Vec<Found> {
    let question = Question::of(document).expect("a question");
    goals::read(&answer(&question.task(), 3)).expect("answers")
}

fn reads(layout: &Layout, reading: &str, travel: f64) -> f64 {
    let quantity = Quantity::named(reading).expect("a reading");
    let outcome = Outcome { quantity, side: LeftOrRight::Left, travel, rack: 0.0 };
    read(layout, &[outcome]).expect("an axle")[0].expect("a value")
}

/// A piece is one step of a start, not the whole of it: before the first answer there are several.
#[test]
fn a_piece_is_no_longer_than_a_step() {
    let question = Question::of(&prepared().expect("a demo")).expect("a question");
    let mut work = Work::start(&question.task()).expect("work");
    let mut before = 0;
    let slice = loop {
        let slice = work.slice(one_piece());
        if !slice.news.is_empty() || slice.last() {
            break slice;
        }
        before += 1;
    };
    assert!(before >= 2, "{before}");
    assert_eq!(goals::starts(&slice), [0, STARTS]);
    let rest = work.slice(|| true);
    assert_eq!((rest.last(), goals::starts(&rest)), (true, [STARTS; 2]));
}

/// Time for one piece.
fn one_piece() -> impl FnMut() -> bool {
    let mut left = 1;
    move || {
        left -= 1;
        left >= 0
    }
}

/// What the text of an answer rounds to: a digit of a double.
const TEXT: f64 = 1e-9;

#[test]
fn work_finds_what_the_kernel_finds_however_it_is_sliced() {
    for name in DEMOS {
        let document = with_goal(demo(name), toe(&demo(name)));
        let question = Question::of(&document).expect("a question");
        let whole = answer(&question.task(), usize::MAX);
        for pieces in [1, 5] {
            assert_eq!(answer(&question.task(), pieces), whole, "{name}");
        }
        let told = goals::read(&whole).expect("answers");
        let file = question.task().lines().nth(1).expect("goals").to_string();
        let asked = Goals::from_json(&file, &document.layout).expect("goals");
        let mut search = Search::new(&document.layout, asked).expect("a search");
        (0..STARTS).for_each(|_| search.step());
        let best = &search.answers()[0];
        assert_eq!((&told[0].met, told[0].at_the_end.len()), (&best.met, best.at_the_end.len()), "{name}");
        for (told, best) in told[0].numbers.iter().zip(&best.numbers) {
            near(*told, *best, TEXT, name);
        }
        for (told, best) in told[0].values[0].iter().zip(&best.values[0]) {
            near(*told, *best, TEXT, name);
        }
    }
}

/// The prepared goal: the axis of two split wishbones, which runs through both ball joints, is brought to 10 mm from the wheel's centre; it runs
/// through no joint then. What is told is asked of the kernel again, of the axle as it is taken.
#[test]
fn the_prepared_goal_is_met_and_ends_with_a_virtual_axis() {
    let document = prepared().expect("a demo");
    let wishbones = reads(&demo("double-wishbone"), OFFSET, 0.0);
    near(reads(&document.layout, OFFSET, 0.0), wishbones, 1e-9, "splitting alone moves nothing");
    assert!(wishbones > 20.0, "{wishbones}: there is something to do");
    let best = &found(&document)[0];
    assert!(best.all_met(), "{best:?}");
    let mut app = App::new(document.clone(), Vec::new());
    let question = Question::of(&app.document).expect("a question");
    app.update(Edit::Point(Point::PlaceAll(question.places(best))));
    let taken = app.document.layout.clone();
    assert_eq!(taken, question.layout(best));
    near(reads(&taken, OFFSET, 0.0), 10.0, 0.5, "kingpin offset at the wheel centre");
    for travel in [-40.0, -20.0, 0.0, 20.0, 40.0] {
        let toe = reads(&taken, "toe_deg", travel);
        // A range is met to a hundredth of its scale, and places are rounded to 0.01 mm.
        assert!((0.048..=0.152).contains(&toe), "{travel}: {toe}");
    }
    for [front, rear] in
        [[PointId::LowerFrontOuter, PointId::LowerRearOuter], [PointId::UpperFrontOuter, PointId::UpperRearOuter]]
    {
        let apart = taken.point(front).expect("an arm") - taken.point(rear).expect("an arm");
        assert!(apart.norm() > 10.0, "the arms meet at no ball joint any more: {apart}");
    }
    app.update(Step::Undo);
    assert_eq!(app.document, document, "one step");
}

#[test]
fn aims_that_can_t_be_met_leave_the_nearest_and_are_named() {
    let layout = demo("four-arm");
    let freed = around(&layout, PointId::UpperFrontOuter, [0.0, 40.0, 0.0]);
    let value = |value: f64| aim(OFFSET, &[0.0], Wanted::Value([value, 0.5]));
    let document = with_goal(layout, Goal { free: freed, aims: vec![value(8.0), value(12.0)], ..Goal::default() });
    let all = found(&document);
    assert_eq!(all.len(), 1, "the nearest alone");
    assert_eq!((all[0].all_met(), all[0].against), (false, Some([0, 1])));
    assert!((8.0..12.0).contains(&all[0].values[0][0]), "{all:?}");
}

/// A length that has to stay stays.
#[test]
fn a_kept_length_is_kept() {
    let mut document = prepared().expect("a demo");
    let goal = document.papers.goal.as_mut().expect("a goal");
    let path = Member::UpperFront.path();
    let before = goals::length(&document.layout, LeftOrRight::Left, path).expect("an arm");
    goal.lengths.push(LengthKept { member: path.into(), range: [before - 1.0, before + 1.0] });
    let best = &found(&document)[0];
    assert!(best.all_met(), "{best:?}");
    let after = Question::of(&document).expect("a question").lengths(best)[0].expect("an arm");
    assert!((after - before).abs() <= 1.02, "{before} {after}");
    let names = members(&demo("strut")).len();
    assert_eq!((names, members(&document.layout).len()), (3, 5), "a strut has no upper rods");
}

/// A sentence: a capital or a quotation mark first, a full stop or what follows the kernel's own last, and nothing of the program's.
fn is_sentence(text: &str) {
    assert!(text.len() > 20 && text.ends_with('.') && !text.contains("_mm") && !text.contains("_deg"), "{text}");
    assert!(text.starts_with(|c: char| c.is_uppercase() || c == '“'), "{text}");
}

#[test]
fn what_can_t_be_searched_for_is_refused_in_one_sentence_and_nothing_is_lost() {
    let layout = demo("four-arm");
    let sound = toe(&layout);
    let bad = |change: fn(&mut Goal)| {
        let mut goal = sound.clone();
        change(&mut goal);
        goal
    };
    fn keep(kept: Kept, limit: f64) -> Condition {
        Condition { kept, travel: vec![0.0], rack: 0.0, limit }
    }
    let cases = [
        bad(|goal| goal.free.clear()),
        bad(|goal| goal.aims.clear()),
        bad(|goal| goal.free[0].point = PointId::LowerOuter),
        bad(|goal| goal.free[0].axis = 7),
        bad(|goal| goal.free[0].range = [10.0, -10.0]),
        bad(|goal| goal.free[0].range = [0.0, 1e300]),
        bad(|goal| goal.free[0].range[0] = f64::NAN),
        bad(|goal| goal.free[1] = goal.free[0]),
        bad(|goal| goal.aims[0].reading = "supper".into()),
        bad(|goal| goal.aims[0].travel.clear()),
        bad(|goal| goal.aims[0].travel[1] = 1e9),
        bad(|goal| goal.aims[0].travel[1] = f64::NAN),
        bad(|goal| goal.aims[0].rack = 400.0),
        bad(|goal| goal.aims[0].wanted = Wanted::Value([f64::NAN, 1.0])),
        bad(|goal| goal.aims[0].wanted = Wanted::Value([1.0, 0.0])),
        bad(|goal| goal.aims[0].wanted = Wanted::Range([1.0, 1.0])),
        bad(|goal| goal.aims = vec![goal.aims[0].clone(); 200]),
        bad(|goal| goal.aims[0].travel = vec![0.0; 1001]),
        bad(|goal| goal.free = vec![goal.free[0]; 61]),
        bad(|goal| goal.lengths.push(LengthKept { member: "upper".into(), range: [1.0, 2.0] })),
        bad(|goal| goal.lengths.push(LengthKept { member: "track_rod".into(), range: [2.0, 1.0] })),
        bad(|goal| goal.aims[0].wanted = Wanted::Line(Line::level(false, 60.0, [0.1, 0.0]))),
        bad(|goal| goal.aims[0].wanted = Wanted::Line(Line::level(false, 0.0, [0.1, 0.1]))),
        bad(|goal| goal.aims[0].wanted = Wanted::Line(Line::level(false, 600.0, [0.1, 0.1]))),
        bad(|goal| goal.aims[0].wanted = Wanted::Line(Line::level(true, 600.0, [0.1, 0.1]))),
        bad(|goal| {
            goal.aims[0].wanted = Wanted::Line(Line { points: Vec::new(), ..Line::level(true, 1.0, [0.1, 0.1]) })
        }),
        bad(|goal| goal.conditions.push(keep(Kept::Swing(PointId::StrutFoot), 10.0))),
        bad(|goal| goal.conditions.push(keep(Kept::Swing(PointId::TrackRodOuter), 0.0))),
        bad(|goal| goal.conditions.push(keep(Kept::Swing(PointId::TrackRodOuter), 91.0))),
        bad(|goal| goal.conditions.push(keep(Kept::LeastGap, -1.0))),
        bad(|goal| goal.conditions.push(keep(Kept::LeastGap, f64::NAN))),
        bad(|goal| goal.conditions.push(keep(Kept::Gap(["wheel".into(), "roof".into()]), 8.0))),
        bad(|goal| goal.conditions.push(Condition { travel: Vec::new(), ..keep(Kept::LeastGap, 8.0) })),
        bad(|goal| goal.conditions.push(Condition { travel: vec![0.0; 51], ..keep(Kept::LeastGap, 8.0) })),
        bad(|goal| goal.conditions.push(Condition { rack: 1e4, ..keep(Kept::LeastGap, 8.0) })),
    ];
    for goal in cases {
        let document = with_goal(layout.clone(), goal.clone());
        is_sentence(&Question::of(&document).expect_err(&format!("{goal:?}")));
    }
    let mut locked = with_goal(layout.clone(), sound.clone());
    locked.lock(PointId::TrackRodInner, [false, false, true]);
    is_sentence(&Question::of(&locked).expect_err("a lock"));
    assert!(Question::of(&with_goal(layout.clone(), sound)).is_ok());
    assert!(Question::of(&Document::of(layout)).is_err(), "nothing is asked");
    for task in ["goals", "goals\n{}", "goals\n{}\n{}"] {
        assert!(Work::start(task).is_err(), "{task}");
    }
}

/// What the present axle can't read or reach is said by the work; so is a search of which nothing comes.
#[test]
fn what_can_t_be_read_at_the_start_is_said_in_one_sentence() {
    // An axle that does not steer has no steering axis.
    let layout = demo("five-rod-unsteered");
    let mut goal = toe(&layout);
    goal.aims.push(aim(OFFSET, &[0.0], Wanted::Value([0.0, 1.0])));
    let question = Question::of(&with_goal(layout, goal)).expect("a question");
    is_sentence(&goals::read(&answer(&question.task(), 2)).expect_err("no such reading"));
    let layout = demo("strut");
    let mut goal = toe(&layout);
    goal.aims[0].travel = vec![119.0];
    let mut short = layout.clone();
    short.changes.set(Sides::Both, Change::Length(Member::TrackRod), -400.0);
    let question = Question::of(&with_goal(short, goal)).expect("a question");
    is_sentence(&goals::read(&answer(&question.task(), 2)).expect_err("it does not go there"));
    is_sentence(&goals::read("").expect_err("nothing"));
}

#[test]
fn presets_free_what_they_say() {
    let count = |name: &str, preset: Preset| preset.freed(&demo(name)).len();
    // Two ball joints or four outer joints; the rack's height and the track rod; inner joints, of a strut the mount too.
    for (name, outer, body) in [("double-wishbone", 6, 15), ("four-arm", 12, 15), ("strut", 3, 12)] {
        let counts = [Preset::OuterJoints, Preset::Rack, Preset::BodyJoints].map(|preset| count(name, preset));
        assert_eq!(counts, [outer, 2, body], "{name}");
    }
    let layout = demo("four-arm");
    let mut goal = Goal::default();
    goal.free(around(&layout, PointId::TrackRodInner, USUAL));
    goal.free[2].range = [0.0, 1.0];
    goal.free(Preset::Rack.freed(&layout));
    assert_eq!((goal.free.len(), goal.free[2].range), (3, [0.0, 1.0]), "what is free already keeps its box");
}

#[test]
fn wanted_is_a_value_or_a_range_of_the_same() {
    let value = Wanted::Value([10.0, 0.5]);
    let said = |wanted: &Wanted, manner| wanted.said_as(manner, 60.0);
    let range = said(&value, Manner::Range);
    assert_eq!((&range, value.range()), (&Wanted::Range([9.5, 10.5]), [9.5, 10.5]));
    assert_eq!((&said(&range, Manner::Value), &said(&value, Manner::Value)), (&value, &value));
    assert_eq!((value.with(1, 2.0), value.with(0, 3.0)), (Wanted::Value([10.0, 2.0]), Wanted::Value([3.0, 0.5])));
    for (manner, rack) in [(Manner::OverTravel, false), (Manner::OverRack, true)] {
        let line = said(&range, manner);
        let points = vec![[-60.0, 10.0], [0.0, 10.0], [60.0, 10.0]];
        assert_eq!(line, Wanted::Line(Line { rack, points, off: 0.5 }));
        assert_eq!(
            (line.manner(), said(&line, Manner::Value), line.with(1, 0.2).numbers()),
            (manner, value.clone(), [10.0, 0.2])
        );
    }
}

/// Points of a line keep their order under a hand, and between them it is straight.
#[test]
fn a_line_is_drawn_point_by_point() {
    let mut line = Line::level(false, 50.0, [1.0, 0.1]);
    assert_eq!(line.add([25.0, 2.0]), Some(2));
    assert_eq!(line.add([25.4, 3.0]), Some(2), "a point so near is the same one");
    assert_eq!(line.points, [[-50.0, 1.0], [0.0, 1.0], [25.0, 3.0], [50.0, 1.0]]);
    assert_eq!([-60.0, -25.0, 12.5, 40.0, 70.0].map(|x| line.at(x)), [1.0, 1.0, 2.0, 1.8, 1.0]);
    assert_eq!(line.places().first().copied().zip(line.places().last().copied()), Some((-50.0, 50.0)));
    let places = line.places();
    assert!(line.points.iter().all(|[x, _]| places.contains(x)), "{places:?}");
    assert!(places.windows(2).all(|two| two[0] < two[1] && two[1] - two[0] <= 20.0), "{places:?}");
    line.drag(1, [90.0, 5.0]);
    assert_eq!(line.points[1], [24.0, 5.0], "no further than to its neighbour");
    line.drag(9, [0.0, 0.0]);
    while line.add([line.points[0][0] - 2.0, 0.0]).is_some() {}
    assert_eq!((line.points.len(), line.is_sound()), (Line::MOST, true));
    for points in [vec![[0.0, 1.0]], vec![[0.0, 1.0], [0.0, 2.0]], vec![[0.0, f64::NAN], [1.0, 2.0]]] {
        assert!(!Line { points, ..line.clone() }.is_sound());
    }
}

/// A line over travel and one over the rack are followed everywhere between their points, too: asked of the kernel again, of the axle as it is taken.
#[test]
fn a_line_is_followed_between_its_points() {
    for (name, rack, points, off) in [
        ("four-arm", false, vec![[-60.0, 0.05], [0.0, 0.1], [60.0, 0.3]], 0.03),
        ("double-wishbone", true, vec![[-40.0, 0.0], [40.0, 0.0]], 0.5),
    ] {
        let layout = demo(name);
        let mut goal = toe(&layout);
        goal.free(Preset::OuterJoints.freed(&layout));
        goal.aims[0] = match rack {
            false => Aim {
                wanted: Wanted::Line(Line { rack, points, off }),
                ..aim("toe_deg", &[7.0], Wanted::Value([0.0; 2]))
            },
            true => {
                // Camber over the rack, less than it is now the further it is steered; straight ahead it is the design's.
                let quantity = Quantity::named("camber_deg").expect("a reading");
                let at = |rack| Outcome { quantity, side: LeftOrRight::Left, travel: 7.0, rack };
                let now = |rack| read(&layout, &[at(rack)]).expect("an axle")[0].expect("camber");
                let points =
                    [-40.0, -20.0, 0.0, 20.0, 40.0].map(|x| [x, now(x) - 0.3 * (x / 40.0_f64).powi(2)]).to_vec();
                Aim {
                    wanted: Wanted::Line(Line { rack, points, off: 0.1 }),
                    ..aim("camber_deg", &[7.0], Wanted::Value([0.0; 2]))
                }
            }
        };
        let document = with_goal(layout.clone(), goal.clone());
        let best = &found(&document)[0];
        assert!(best.all_met(), "{name}: {best:?}");
        let taken = Question::of(&document).expect("a question").layout(best);
        let Wanted::Line(line) = &goal.aims[0].wanted else { panic!("a line") };
        let quantity = goal.aims[0].quantity().expect("a reading");
        for step in 0..=80 {
            let [from, to] = [line.points[0][0], line.points[line.points.len() - 1][0]];
            let x = from + (to - from) * f64::from(step) / 80.0;
            let [travel, rack] = if rack { [7.0, x] } else { [x, 0.0] };
            let outcome = Outcome { quantity, side: LeftOrRight::Left, travel, rack };
            let is = read(&taken, &[outcome]).expect("an axle")[0].expect("a value");
            // Places are rounded to 0.01 mm, and between two places a reading bends a little.
            assert!((is - line.at(x)).abs() < 1.1 * line.off, "{name} at {x}: {is}, wanted {}", line.at(x));
        }
        let app = App::new(document, Vec::new());
        let curve = app.followed(&taken, &goal.aims[0]);
        assert!(curve.iter().any(|(x, y)| x.abs() < 1e-9 && (y - line.at(0.0)).abs() < line.off), "{curve:?}");
    }
}

/// Swings and gaps are asked of the kernel in the order of its files, however they were added, and what comes of them is told of the right ones.
#[test]
fn conditions_are_kept_whatever_their_order() {
    let layout = demo("four-arm");
    let mut goal = toe(&layout);
    let one = |kept, limit| Condition { kept, travel: vec![-30.0, 30.0], rack: 0.0, limit };
    goal.conditions = vec![
        one(Kept::Gap(["wheel".into(), "track_rod".into()]), 0.5),
        one(Kept::Swing(PointId::TrackRodOuter), 30.0),
        one(Kept::Swing(PointId::LowerFrontInner), 0.1),
    ];
    let document = with_goal(layout.clone(), goal.clone());
    let app = App::new(document.clone(), Vec::new());
    let best = &found(&document)[0];
    assert_eq!((best.kept.len(), best.conditions.len()), (3, 3));
    // An arm that swings by 0.1° moves its wheel by half a millimetre: that is not kept, and the last of the two swings.
    assert_eq!(best.kept, [true, false, best.kept[2]], "{best:?}");
    assert!(best.conditions[1][0] > 1.0, "{best:?}");
    // Nearly nothing moves, so what they come to is what they are now.
    let now: Vec<f64> = app.kept().iter().map(|values| values.as_ref().expect("values")[0]).collect();
    near(best.conditions[0][0], now[1], 2.0, "track rod");
    near(best.conditions[1][0], now[2], 2.0, "arm");
    near(best.conditions[2][0], now[0], 12.0, "gap");
}

/// Dragged at a corner a box goes with the hand, its joint being elsewhere than at rest; never past its other end, and in one step.
#[test]
fn ends_of_a_box_are_dragged() {
    let mut app = asked();
    let joint = PointId::TrackRodInner;
    let before = app.goal().box_of(joint);
    let [None, Some(across), Some(up)] = before else { panic!("{before:?}") };
    app.update(Stand::Rack(20.0));
    let ends = [None, Some(1), Some(0)];
    let at = app.end_of_box(joint, ends).expect("a joint");
    let rest = app.document.layout.point(joint).expect("a joint");
    near(at.y, across[1] + 20.0, 1e-9, "the rack has taken the box with it");
    assert!((at.x, at.z) == (rest.x, up[0]), "{at}");
    app.update(Hand::Select(Some(joint)));
    app.update(Hand::Hold);
    app.update(Hand::Bound(joint, ends, at + Vec3::new(9.0, 3.0, -2.0)));
    app.update(Hand::Bound(joint, ends, at + Vec3::new(9.0, 5.0, 100.0)));
    app.update(Hand::Release);
    let after = app.goal().box_of(joint);
    near(after[1].expect("a box")[1], across[1] + 5.0, 0.006, "across");
    assert_eq!((after[0], after[1].map(|range| range[0]), after[2]), (None, Some(across[0]), Some([up[1], up[1]])));
    app.update(Step::Undo);
    assert_eq!(app.goal().box_of(joint), before, "one step");
    // By keys: one end after the other, then none; what is held is said and moved alone.
    let view = [1, 2];
    let mut ends = Vec::new();
    while let Some(next) = app.next_end(view) {
        app.update(Hand::HoldBound(Some(next)));
        assert!(app.spoken_bound().is_some_and(|says| says.starts_with("Box of the ")));
        ends.push(next);
    }
    assert_eq!(ends.len(), 8, "four corners and four edges");
    app.update(Hand::HoldBound(Some([None, None, Some(1)])));
    app.update(Hand::Nudge(Vec3::new(0.0, 1.0, 1.0)));
    assert_eq!(app.goal().box_of(joint), [None, Some(across), Some([up[0], ((up[1] + 1.0) * 100.0).round() / 100.0])]);
    assert_eq!(app.document.layout.point(joint), Some(rest), "the joint stays");
    app.update(Hand::Select(Some(joint)));
    assert_eq!(app.bound, None);
}

fn asked() -> App {
    let mut app = App::new(Document::of(first()), Vec::new());
    app.update(Paper::Goal(Box::new(toe(&first()))));
    app
}

#[test]
fn files_and_drafts_keep_the_goal_and_links_do_not() {
    let mut app = asked();
    let document = app.document.clone();
    let parameters = link::write(&document);
    assert_eq!(parameters, link::write(&Document::of(first())));
    let layout = Layout::from_json(&document.to_file()).expect("a layout");
    assert_eq!(Document::of_file(layout), (document.clone(), Vec::new()));
    let kept = with("", &Draft::of(7.0, &document));
    assert_eq!(kept.lines().count(), 1);
    assert_eq!(open(&kept, &parameters).expect("a document").0, document);
    app.update(Step::Undo);
    assert_eq!(app.document.papers, Papers::default());
    app.update(Step::Redo);
    app.update(Open::Demo(0));
    assert_eq!(app.document.papers.goal, None, "a demo is another car");
    let mut app = asked();
    app.update(Paper::Goal(Box::default()));
    assert_eq!(app.document.papers, Papers::default(), "an empty one is none");
    // Damaged ones lose nothing but themselves, and that is said.
    for damaged in [r#"{"goal": {"free": [{"point": "?", "axis": 0, "range": [0, 1]}]}}"#, r#"{"goal": {"aims": 3}}"#] {
        let mut layout = first();
        layout.other.insert("papers".into(), serde_json::from_str(damaged).expect("JSON"));
        let (opened, says) = Document::of_file(layout);
        assert_eq!((opened, says.len()), (Document::of(first()), 1));
    }
}

#[test]
fn what_readings_are_now_is_told_beside_the_aims() {
    let mut app = asked();
    let now = app.aimed()[0].clone();
    for (travel, now) in [-30.0, 0.0, 30.0].into_iter().zip(now) {
        near(now.expect("a value"), reads(&app.document.layout, "toe_deg", travel), 1e-12, "toe");
    }
    let mut goal = app.goal();
    goal.aims.push(aim("supper", &[0.0], Wanted::Value([0.0, 1.0])));
    goal.aims.push(aim("toe_deg", &[1e6], Wanted::Value([0.0, 1.0])));
    app.update(Paper::Goal(Box::new(goal)));
    assert_eq!(app.aimed().iter().map(Vec::len).collect::<Vec<_>>(), [3, 0, 0]);
    // An answer's axle stands where this one is shown; one that can't be assembled is none.
    let mut other = app.document.layout.clone();
    assert!(app.previewed(&other).is_some());
    other.point_mut(PointId::TrackRodInner).expect("a joint").y = 1e5;
    assert!(app.previewed(&other).is_none());
}

/// Boxes are drawn in every view, round the joint where it is now, and an offered axle over them.
#[test]
fn boxes_and_offers_are_drawn_in_every_view() {
    use web::drawing::{Arrangement, Axle, Item, Sheet, boxes, offered};
    let app = App::new(prepared().expect("a demo"), Vec::new());
    let axle = Axle::of(&app.study.good);
    let sheet = Sheet::fit([1200.0, 800.0], Arrangement::Cross { drawer: [416.0, 348.0] }, &app.picture());
    let drawn = |items: Vec<Item>, count: RangeInclusive<usize>| {
        assert_eq!(items.len(), 3, "a view each");
        for item in items {
            let Item::Clip { items, .. } = item else { panic!("{item:?}") };
            assert!(count.contains(&items.len()), "{}", items.len());
        }
    };
    drawn(boxes(&app.goal(), &axle, &sheet), 4..=4);
    drawn(offered(&app.study.good, &sheet), 15..=30);
    // What is no joint of this axle, or no coordinate, has no box and stops nothing.
    let stray = |point, axis| Freed { point, axis, range: [0.0, 1.0] };
    let goal = Goal { free: vec![stray(PointId::StrutTop, 0), stray(PointId::TrackRodInner, 9)], ..Goal::default() };
    drawn(boxes(&goal, &axle, &sheet), 1..=1);
}

/// An exercise is for the student to solve.
#[test]
fn an_exercise_searches_for_nothing() {
    let exercises = web::content::exercises::all();
    let mut document = exercises.into_iter().next().expect("an exercise").document;
    document.papers.goal = Some(Box::new(toe(&document.layout)));
    is_sentence(&Question::of(&document).expect_err("an exercise"));
    document.lesson = None;
    assert!(Question::of(&document).is_ok());
}
