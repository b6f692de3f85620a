//! Goals, spread and fit: laws over the demos, and bad files. The outside witness is `tests/reference/vary_reference.py` (see `aims_witness`).
//! Long because three questions share their axles and their files.

use kernel::vary::fit::Measured;
use kernel::vary::goals::{Aim, Freedom, Goals, Search, Wanted};
use kernel::vary::spread::{Asked, Spread};
use kernel::vary::{Design, Distribution, Errors, Kind, Outcome, Parameter, Quantity, Sensitivity, read};
use kernel::{Change, Layout, LeftOrRight, Member, PointId, Sides};
use tests::{DEMOS, demo, near};

fn quantity(column: &str) -> Quantity {
    Quantity::named(column).unwrap_or_else(|| panic!("{column}"))
}

fn outcome(column: &str, travel: f64) -> Outcome {
    Outcome { quantity: quantity(column), side: LeftOrRight::Left, travel, rack: 0.0 }
}

/// The height of the track rod's inner joint and of the lower front inner one, and how far out the latter is: what every axle can move.
fn free(layout: &Layout) -> Vec<Freedom> {
    let numbers = [(PointId::TrackRodInner, 2), (PointId::LowerFrontInner, 2), (PointId::LowerFrontInner, 1)];
    let freedom = |(id, axis): (PointId, usize)| {
        let now = layout.point(id).expect("every axle has it")[axis];
        Freedom { parameter: Parameter::Design(Design::Coordinate(id, axis)), range: [now - 20.0, now + 20.0] }
    };
    numbers.map(freedom).to_vec()
}

/// The readings of an axle as aims.
fn aims(layout: &Layout) -> Vec<Aim> {
    let asked = [("toe_deg", 0.01), ("camber_deg", 0.01), ("wheelbase_change_mm", 0.1), ("track_change_mm", 0.1)];
    let aim = |(column, tolerance): (&str, f64)| {
        let travels = [-40.0, -20.0, 20.0, 40.0];
        let outcomes = travels.map(|travel| outcome(column, travel));
        let values = read(layout, &outcomes).unwrap_or_else(|why| panic!("{}: {why}", layout.name));
        let place = |(travel, value): (f64, Option<f64>)| ([travel, 0.0], Wanted::Value(value.expect("a value")));
        Aim { quantity: quantity(column), places: travels.into_iter().zip(values).map(place).collect(), tolerance }
    };
    asked.map(aim).to_vec()
}

fn searched(layout: &Layout, goals: Goals) -> Search {
    let mut search = Search::new(layout, goals).unwrap_or_else(|why| panic!("{}: {why}", layout.name));
    (0..search.starts()).for_each(|_| search.step());
    search
}

/// Joints that were moved come back when what the axle did before is aimed at. The pull holds them a hundredth of a tolerance per mm, so not to the last
/// digit.
#[test]
fn a_known_axle_comes_back() {
    for name in DEMOS {
        let layout = demo(name);
        let mut moved = layout.clone();
        for (free, by) in free(&layout).iter().zip([3.0, -4.0, 5.0]) {
            moved = free.parameter.added(&moved, Sides::Both, by);
        }
        let goals = Goals {
            free: free(&layout),
            aims: aims(&layout),
            lengths: Vec::new(),
            conditions: Vec::new(),
            side: LeftOrRight::Left,
            starts: 4,
            seed: 1,
        };
        let search = searched(&moved, goals);
        let best = &search.answers()[0];
        assert!(best.all_met(), "{name}: {best:?}");
        for (free, number) in free(&layout).iter().zip(&best.numbers) {
            let should = free.parameter.get(&layout, Sides::Both).expect("a number");
            near(*number, should, 0.2, &format!("{name}, {}", free.parameter.name(&layout)));
        }
    }
}

/// Nothing has to move where everything is as it is wanted.
#[test]
fn what_is_met_already_moves_nothing() {
    for name in DEMOS {
        let layout = demo(name);
        let goals = Goals {
            free: free(&layout),
            aims: aims(&layout),
            lengths: Vec::new(),
            conditions: Vec::new(),
            side: LeftOrRight::Left,
            starts: 1,
            seed: 1,
        };
        let search = searched(&layout, goals);
        let best = &search.answers()[0];
        for (free, number) in free(&layout).iter().zip(&best.numbers) {
            near(*number, free.parameter.get(&layout, Sides::Both).expect("a number"), 1e-6, name);
        }
    }
}

/// Two values of one reading can't both be had: the nearest lies between them, neither is met, and the two are named.
#[test]
fn aims_that_pull_apart_are_named() {
    let layout = demo("four-arm");
    let aim = |value: f64| Aim {
        quantity: quantity("kingpin_offset_wheel_centre_mm"),
        places: vec![([0.0, 0.0], Wanted::Value(value))],
        tolerance: 0.5,
    };
    let parameter = Parameter::named("upper.front.outer.y", &layout).expect("a parameter");
    let now = parameter.get(&layout, Sides::Both).expect("a number");
    let mut all = aims(&layout);
    all.truncate(1);
    all.extend([aim(8.0), aim(12.0)]);
    let free = vec![Freedom { parameter, range: [now - 60.0, now + 60.0] }];
    let best = searched(
        &layout,
        Goals {
            free,
            aims: all,
            lengths: Vec::new(),
            conditions: Vec::new(),
            side: LeftOrRight::Left,
            starts: 1,
            seed: 1,
        },
    )
    .answers()[0]
        .clone();
    assert_eq!(best.met[1..], [false, false]);
    assert!((8.0..12.0).contains(&best.values[1][0]), "{best:?}");
    assert_eq!(best.against, Some([1, 2]));
}

/// An end of a box holds, and is told.
#[test]
fn a_box_holds() {
    let layout = demo("four-arm");
    let parameter = Parameter::named("upper.front.outer.y", &layout).expect("a parameter");
    let now = parameter.get(&layout, Sides::Both).expect("a number");
    let places = vec![([0.0, 0.0], Wanted::Value(-500.0))];
    let aim = Aim { quantity: quantity("kingpin_offset_wheel_centre_mm"), places, tolerance: 0.5 };
    let free = vec![Freedom { parameter, range: [now - 2.0, now + 2.0] }];
    let best = searched(
        &layout,
        Goals {
            free,
            aims: vec![aim],
            lengths: Vec::new(),
            conditions: Vec::new(),
            side: LeftOrRight::Left,
            starts: 2,
            seed: 1,
        },
    )
    .answers()[0]
        .clone();
    assert_eq!((best.at_the_end.clone(), best.met.clone()), (vec![0], vec![false]));
    near((best.numbers[0] - now).abs(), 2.0, 1e-12, "the end");
}

/// Slopes over 0.001 mm and sensitivity's over 0.5 mm agree to this part: what the greater step errs by in a half-shaft's angle near 0, which changes its
/// shape over few mm.
const AGREES: f64 = 2e-5;

/// Linear spread by the slopes of sensitivity, which are taken otherwise and have a witness of their own.
#[test]
fn linear_spread_is_that_of_the_sensitivities() {
    for name in DEMOS {
        let layout = demo(name);
        for kind in [Kind::Design, Kind::Build] {
            let points = [(PointId::LowerFrontInner, 2.0), (PointId::TrackRodOuter, 1.0)];
            let errors = Errors::of_points(kind, &points, Distribution::Uniform);
            let asked = Asked { errors: errors.clone(), travels: vec![20.0], rack: 0.0 };
            let spread = Spread::new(&layout, LeftOrRight::Left, &asked, 1, |_| false).expect("an axle");
            let slopes = Sensitivity::at(&layout, LeftOrRight::Left, 20.0, 0.0).expect("an axle");
            for (i, outcome) in spread.outcomes().iter().enumerate() {
                let Some(off) = spread.off(i) else { continue };
                let at = Quantity::all().position(|q| q.column() == outcome.quantity.column()).expect("a column");
                let slope = |number: &Parameter| {
                    slopes.rows.iter().find(|(other, _)| other == number).and_then(|(_, row)| row[at]).expect("a slope")
                };
                let parts: Vec<[f64; 2]> = errors
                    .numbers
                    .iter()
                    .map(|(number, most)| [slope(number) * most / 3.0_f64.sqrt(), slope(number).abs() * most])
                    .collect();
                let sigma = parts.iter().map(|part| part[0] * part[0]).sum::<f64>().sqrt();
                let worst: f64 = parts.iter().map(|part| part[1]).sum();
                let what = format!("{name}, {kind:?}, {}", outcome.quantity.column());
                near(off.sigma_linear, sigma, AGREES * sigma + 1e-7, &what);
                near(off.worst_linear, worst, AGREES * worst + 1e-7, &what);
                let shares = spread.shares(i);
                if sigma > 1e-6 {
                    near(shares.iter().map(|(_, share)| share).sum(), 1.0, 1e-9, &what);
                }
            }
        }
    }
}

/// Small errors spread as the slopes say: within five standard errors of a deviation, σ/√(2n), and of a mean, σ/√n.
#[test]
fn what_is_drawn_spreads_as_the_slopes_say() {
    let n = 4000;
    for name in DEMOS {
        let layout = demo(name);
        for distribution in [Distribution::Uniform, Distribution::Normal] {
            let points = [(PointId::LowerFrontInner, 0.1), (PointId::TrackRodOuter, 0.1)];
            let errors = Errors::of_points(Kind::Build, &points, distribution);
            let asked = Asked { errors, travels: vec![-30.0, 30.0], rack: 0.0 };
            let mut spread = Spread::new(&layout, LeftOrRight::Left, &asked, 7, |_| true).expect("an axle");
            (0..n).for_each(|_| spread.draw());
            assert_eq!(spread.failed, 0);
            for i in 0..spread.outcomes().len() {
                let what = format!("{name}, {distribution:?}, {}", spread.outcomes()[i].quantity.column());
                let Some((off, drawn)) = spread.off(i).and_then(|off| Some((off, off.drawn?))) else { continue };
                let error = off.sigma_linear / f64::from(n).sqrt();
                // Second order: readings bend over 0.1 mm by some thousandths of what they move.
                near(
                    drawn.sigma,
                    off.sigma_linear,
                    5.0 * error / 2.0_f64.sqrt() + 0.01 * off.sigma_linear + 1e-9,
                    &what,
                );
                near(drawn.mean, off.value, 5.0 * error + 0.01 * off.sigma_linear + 1e-9, &what);
                let [low, middle, high] = drawn.percentiles.expect("kept");
                assert!(low <= middle && middle <= high, "{what}");
                assert!((drawn.mean - off.value).abs() <= off.worst_linear * 1.1 + 1e-9, "{what}");
            }
        }
    }
}

/// The same seed gives the same axles; another gives others.
#[test]
fn a_seed_gives_the_same_axles() {
    let layout = demo("strut");
    let asked = Asked {
        errors: Errors::of_points(Kind::Design, &[(PointId::LowerFrontInner, 1.0)], Distribution::Normal),
        travels: vec![10.0],
        rack: 0.0,
    };
    let table = |seed| {
        let mut spread = Spread::new(&layout, LeftOrRight::Left, &asked, seed, |_| true).expect("an axle");
        (0..50).for_each(|_| spread.draw());
        spread.table()
    };
    assert_eq!(table(3), table(3));
    assert_ne!(table(3), table(4));
}

/// The height of the track rod's inner joint, to ±4 mm.
fn height() -> Errors {
    Errors {
        numbers: vec![(Parameter::Design(Design::Coordinate(PointId::TrackRodInner, 2)), 4.0)],
        distribution: Distribution::Normal,
    }
}

/// Exact readings of an axle whose joint lies higher than it was measured: the fit brings the readings, and the height.
#[test]
fn a_fit_finds_the_height_that_toe_tells() {
    for name in DEMOS {
        let layout = demo(name);
        let (number, _) = height().numbers[0];
        let real = number.added(&layout, Sides::Both, 2.0);
        let outcomes = [-50.0, -30.0, -10.0, 10.0, 30.0, 50.0].map(|travel| outcome("toe_deg", travel));
        let toe = read(&real, &outcomes).expect("an axle");
        let toe = outcomes.iter().zip(toe).map(|(outcome, toe)| (*outcome, toe.expect("toe"), 0.001));
        // Camber is free, and tips the toe curve, too.
        let values = toe.chain([(outcome("camber_deg", 0.0), layout.wheel.camber, 0.01)]).collect();
        let fitted = Measured { values, errors: height() }.fit(&layout).unwrap_or_else(|why| panic!("{name}: {why}"));
        assert!(fitted.left.iter().all(|left| left.abs() < 1.0), "{name}: {:?}", fitted.left);
        near(fitted.numbers[0].fitted - fitted.numbers[0].measured, 2.0, 0.05, name);
        assert!(!fitted.numbers[0].is_untouched(), "{name}: {:?}", fitted.numbers);
    }
}

/// Toe at rest is given beside the joints: it tells itself, and nothing of them, nor of camber.
#[test]
fn what_readings_say_nothing_about_is_told() {
    for name in DEMOS {
        let layout = demo(name);
        let values = vec![(outcome("toe_deg", 0.0), layout.wheel.toe + 0.1, 0.01)];
        let fitted = Measured { values, errors: height() }.fit(&layout).unwrap_or_else(|why| panic!("{name}: {why}"));
        let [height, camber, toe] = fitted.numbers[..] else { panic!("three numbers") };
        assert!(height.is_untouched() && camber.is_untouched() && !toe.is_untouched(), "{name}: {:?}", fitted.numbers);
        near(height.left.expect("its prior's"), 2.0, 1e-6, name);
        near(toe.left.expect("the reading's"), 0.01, 1e-6, name);
        assert_eq!(camber.left, None, "{name}");
    }
}

/// What a fit says of its own uncertainty is what many fits of readings with errors scatter by.
#[test]
fn a_fit_s_uncertainty_is_that_of_many_fits() {
    let layout = demo("double-wishbone");
    let travels = [-50.0, -25.0, 0.0, 25.0, 50.0];
    let outcomes: Vec<Outcome> = travels.iter().map(|travel| outcome("toe_deg", *travel)).collect();
    let error = 0.01;
    let mut seed = 0x2545_F491_4F6C_DD1D_u64;
    // Another generator than the kernel's: xorshift64 (G. Marsaglia, *Xorshift RNGs*, J. Stat. Softw. 8/14, 2003), twelve of its numbers a normal one.
    let mut normal = || {
        let mut unit = || {
            seed ^= seed << 13;
            seed ^= seed >> 7;
            seed ^= seed << 17;
            (seed >> 11) as f64 / (1_u64 << 53) as f64
        };
        (0..12).map(|_| unit()).sum::<f64>() - 6.0
    };
    let (n, deviation) = (400, 1.0);
    let (mut first, mut second, mut said) = (0.0, 0.0, 0.0);
    for _ in 0..n {
        // A real axle about the measured one, and readings about the real one's.
        let height = Parameter::Design(Design::Coordinate(PointId::TrackRodInner, 2));
        let real = height.added(&layout, Sides::Both, deviation * normal());
        let toe = read(&real, &outcomes).expect("an axle");
        let values = outcomes
            .iter()
            .zip(toe)
            .map(|(outcome, toe)| (*outcome, toe.expect("toe") + error * normal(), error))
            .collect();
        let errors = Errors { numbers: vec![(height, 2.0 * deviation)], distribution: Distribution::Normal };
        let fitted = Measured { values, errors }.fit(&layout).expect("a fit");
        let off = fitted.numbers[0].fitted - height.get(&real, Sides::Both).expect("a number");
        first += off;
        second += off * off;
        said = fitted.numbers[0].left.expect("determined");
    }
    let n = f64::from(n);
    let scatter = (second / n - (first / n).powi(2)).sqrt();
    // Five standard errors of a deviation.
    near(scatter / said, 1.0, 5.0 / (2.0 * n).sqrt(), "scatter over said");
}

/// Each slip in a file is one sentence that names it.
#[test]
fn bad_files_are_told() {
    let layout = demo("four-arm");
    let aim = r#"{"reading": "toe_deg", "value": 0.1, "tolerance": 0.01}"#;
    let free = r#"{"parameter": "track_rod.inner.z", "range": [200, 300]}"#;
    let goals = |free: &str, aims: &str| format!(r#"{{"free": [{free}], "aims": [{aims}]}}"#);
    let cases = [
        (goals("", aim), "“free” must have from 1 to 60 entries; it has 0"),
        (goals(free, ""), "“aims” must have from 1 to 100 entries; it has 0"),
        (goals(free, &vec![aim; 200].join(",")), "“aims” must have from 1 to 100 entries; it has 200"),
        (goals(r#"{"parameter": "track_rod.inner.z"}"#, aim), "“free[0].range” must be two numbers"),
        (goals(r#"{"parameter": "rack.spoon", "range": [0, 1]}"#, aim), "“rack.spoon”, which this axle does not have"),
        (goals(&[free, free].join(","), aim), "track_rod.inner.z twice"),
        (goals(free, r#"{"reading": "toe_deg", "value": 0.1}"#), "“aims[0].tolerance” must be more than 0"),
        (goals(free, r#"{"reading": "toe_deg", "tolerance": 1}"#), "“aims[0].value” or “range” must be given"),
        (goals(free, r#"{"reading": "spoon", "value": 0.1, "tolerance": 1}"#), "“spoon”; it must be the column"),
        (goals(free, r#"{"reading": "toe_deg", "travel": ["a"], "value": 0.1, "tolerance": 1}"#), "“aims[0].travel”"),
        (
            goals(free, r#"{"reading": "toe_deg", "travel": [1, 2], "value": [1, 2, 3], "tolerance": 1}"#),
            "as many as “travel” has",
        ),
    ];
    for (text, says) in cases {
        let error = Goals::from_json(&text, &layout).map(|_| ()).expect_err(&text);
        assert!(error.contains(says), "{error} – should say {says}");
    }
    let no_axis = Goals::from_json(
        &goals(
            r#"{"parameter": "lower.front.inner.z", "range": [200, 300]}"#,
            r#"{"reading": "caster_deg", "value": 0.1, "tolerance": 1}"#,
        ),
        &demo("five-rod-unsteered"),
    );
    let why = Search::new(&demo("five-rod-unsteered"), no_axis.expect("goals")).map(|_| ()).expect_err("no axis");
    assert!(why.to_string().contains("no caster_deg at travel 0 mm"), "{why}");

    let cases = [
        (r#"{"points": {"spoon": 2}}"#, "“points” has an entry “spoon”"),
        (r#"{"points": {"lower.front.inner": -2}}"#, "“points.lower.front.inner” is -2; it must be more than 0"),
        (r#"{"points": {}}"#, "“points” is empty"),
        (r#"{"points": {"lower.front.inner": 2}, "lengths": {"track_rod": 1}}"#, "belong to errors of kind build"),
        (r#"{"points": {"lower.front.inner": 2}, "travel": []}"#, "“travel” must be"),
        (
            r#"{"points": {"lower.front.inner": 2}, "distribution": "round"}"#,
            "“distribution” must be one of: uniform, normal",
        ),
        ("[]", "it must be an object"),
    ];
    for (text, says) in cases {
        let error = Asked::from_json(text, &layout).map(|_| ()).expect_err(text);
        assert!(error.contains(says), "{error} – should say {says}");
    }
    let asked = Asked::from_json(
        r#"{"kind": "build", "points": {"lower.front.inner": 2}, "lengths": {"track_rod": 1}}"#,
        &layout,
    );
    let asked = asked.expect("errors");
    assert_eq!(asked.errors.numbers[3], (Parameter::Change(Change::Length(Member::TrackRod)), 1.0));

    let cases = [
        (r#"{"values": [], "errors": {"points": {"lower.front.inner": 2}}}"#, "“values” must have from 1"),
        (
            r#"{"values": [{"reading": "toe_deg", "value": 1, "error": 0}], "errors": {"points": {"lower.front.inner": 2}}}"#,
            "“values[0].error” is 0",
        ),
        (r#"{"values": [{"reading": "toe_deg", "value": 1, "error": 1}]}"#, "“errors” is missing"),
    ];
    for (text, says) in cases {
        let error = Measured::from_json(text, &layout).map(|_| ()).expect_err(text);
        assert!(error.contains(says), "{error} – should say {says}");
    }
}
