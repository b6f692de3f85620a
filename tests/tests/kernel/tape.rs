//! A car measured with a tape, against places that are known, and against SciPy's solver (`reference/tape_reference.py`). Grade: computed.

use kernel::Vec3;
use kernel::tape::{Checked, End, Fault, Found, Network, Tape, What};
use serde_json::Value;
use tests::{DEMOS, demo, near};

/// Marks on the floor whose coordinates are known.
const MARKS: [Vec3; 4] = [
    Vec3::new(500.0, 0.0, 0.0),
    Vec3::new(-600.0, 0.0, 0.0),
    Vec3::new(450.0, 900.0, 0.0),
    Vec3::new(-550.0, 950.0, 0.0),
];

/// Standard deviation of the tape, mm.
const SIGMA: f64 = 2.0;

/// Random numbers, the same in every run: integers after D. H. Lehmer, a normal number as a sum of twelve.
struct Random(u64);

impl Random {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.uniform()).sum::<f64>() - 6.0
    }
}

/// The points of a demo behind the marks, where they are.
fn truth(name: &str) -> Vec<Vec3> {
    MARKS.into_iter().chain(demo(name).points().map(|(_, at)| at)).collect()
}

fn length(points: &[Vec3], ends: [End; 2]) -> f64 {
    let [a, b] =
        ends.map(|end| points[end.point].component_mul(&Vec3::new(1.0, 1.0, f64::from(u8::from(!end.on_floor)))));
    (a - b).norm()
}

fn known(point: usize, at: Vec3) -> impl Iterator<Item = Tape> {
    (0..3).map(move |axis| Tape { what: What::Coordinate(point, axis), value: at[axis], error: 0.01 })
}

/// Every joint from all marks, from its own plumb mark, and from the joint before: exactly as it is.
fn measured(points: &[Vec3], error: f64) -> Vec<Tape> {
    let mut tapes: Vec<Tape> = MARKS.iter().enumerate().flat_map(|(mark, at)| known(mark, *at)).collect();
    for joint in MARKS.len()..points.len() {
        let mut ends: Vec<[End; 2]> = (0..MARKS.len()).map(|mark| [End::at(joint), End::at(mark)]).collect();
        ends.push([End::at(joint), End::below(joint)]);
        if joint > MARKS.len() {
            ends.push([End::at(joint), End::at(joint - 1)]);
        }
        let tape = |ends| Tape { what: What::Distance(ends), value: length(points, ends), error };
        tapes.extend(ends.into_iter().map(tape));
    }
    tapes
}

/// The same with errors of the tape.
fn erred(tapes: &[Tape], random: &mut Random) -> Vec<Tape> {
    let mut tapes = tapes.to_vec();
    for tape in tapes.iter_mut().filter(|tape| matches!(tape.what, What::Distance(_))) {
        tape.value += tape.error * random.normal();
    }
    tapes
}

/// Where the points are thought to be: off by some centimetres.
fn thought(points: &[Vec3], random: &mut Random) -> Vec<Vec3> {
    points.iter().map(|at| at + Vec3::from_fn(|_, _| 60.0 * random.uniform() - 30.0)).collect()
}

fn solved(points: Vec<Vec3>, tapes: Vec<Tape>) -> Found {
    Network::new(points, tapes).expect("a network").solve().expect("places")
}

/// Draws of errors for each demo, and how many standard deviations of their mean the spread of all may be off.
const DRAWS: usize = 100;
const FAR: f64 = 5.0;

/// Exact readings give the places; readings with errors give them within their stated errors, no more and no less: over many draws, coordinate by
/// coordinate, the squares of (found − true)/σ have the mean 1, and χ² the mean that its degrees of freedom say.
#[test]
fn a_known_axle_comes_back_within_the_errors_stated() {
    for name in DEMOS {
        let (points, random) = (truth(name), &mut Random(2026));
        let exact = measured(&points, SIGMA);
        let found = solved(thought(&points, random), exact.clone());
        for (is, should) in found.places.iter().zip(&points) {
            near((is - should).norm(), 0.0, 1e-6, name);
        }
        assert!(found.agree && found.suspects.is_empty() && found.open.iter().all(Vec::is_empty), "{name}");
        let (mut squares, mut chi2, mut spare) = (vec![0.0; 3 * points.len()], 0.0, 0);
        for _ in 0..DRAWS {
            let found = solved(points.clone(), erred(&exact, random));
            for (at, (is, should)) in found.places.iter().zip(&points).enumerate() {
                for axis in 0..3 {
                    let error = found.errors[at][axis].expect("determined");
                    squares[3 * at + axis] += ((is[axis] - should[axis]) / error).powi(2) / DRAWS as f64;
                }
            }
            chi2 += found.chi2 / DRAWS as f64;
            spare = found.spare;
        }
        // The variance of a squared standard normal number is 2. The marks are not drawn.
        let apart = FAR * (2.0 / DRAWS as f64).sqrt();
        for (at, square) in squares.iter().enumerate().skip(3 * MARKS.len()) {
            near(*square, 1.0, apart, &format!("{name}, coordinate {at}"));
        }
        near(chi2, spare as f64, FAR * (2.0 * spare as f64 / DRAWS as f64).sqrt(), name);
    }
}

/// Standard deviation of a reading that is good to ±2 mm.
const GOOD: f64 = 1.0;

/// One tape reading that is 20 mm off among those good to ±2 mm is named, whichever it is.
#[test]
fn one_wrong_reading_is_named() {
    for name in DEMOS {
        let (points, random) = (truth(name), &mut Random(7));
        let exact = measured(&points, GOOD);
        let (mut tried, mut first) = (0, 0);
        for wrong in (0..exact.len()).filter(|at| matches!(exact[*at].what, What::Distance(_))) {
            let mut tapes = erred(&exact, random);
            let good = tapes[wrong].value;
            tapes[wrong].value += 20.0;
            let found = solved(points.clone(), tapes);
            let it = found.suspects.iter().find(|suspect| suspect.tape == wrong);
            let it = it.unwrap_or_else(|| panic!("{name}: reading {wrong} is not among {:?}", found.suspects));
            // What the others say of it is off by their own errors: with the share 1 − h that they see of its error, σ·√(h/(1 − h)).
            let Checked { left, standardised } = found.checked[wrong];
            let seen = (left / GOOD / standardised.expect("checked")).powi(2);
            near(it.by, 20.0 + good - exact[wrong].value, FAR * GOOD * ((1.0 - seen) / seen).sqrt(), name);
            tried += 1;
            first += usize::from(found.suspects[0].tape == wrong);
        }
        assert!(10 * first > 9 * tried, "{name}: the first named is the wrong one in {first} of {tried}");
    }
}

/// What the readings leave open is told, and nothing else: a height, a direction aslant, everything.
#[test]
fn what_is_not_determined_is_told() {
    let points: Vec<Vec3> =
        MARKS.into_iter().chain([Vec3::new(20.0, 340.0, 190.0), Vec3::new(-100.0, 600.0, 300.0)]).collect();
    let marks: Vec<Tape> = MARKS.iter().enumerate().flat_map(|(mark, at)| known(mark, *at)).collect();
    let tape = |ends| Tape { what: What::Distance(ends), value: length(&points, ends), error: SIGMA };
    // Its plumb mark from three marks: nothing of the height.
    let mut tapes = marks.clone();
    tapes.extend((0..3).map(|mark| tape([End::below(4), End::at(mark)])));
    // Two marks: a circle round the line through them.
    tapes.extend((0..2).map(|mark| tape([End::at(5), End::at(mark)])));
    let found = solved(points.clone(), tapes);
    let [height] = found.open[4][..] else { panic!("{:?}", found.open) };
    near(height.z.abs(), 1.0, 1e-9, "the height alone");
    assert!(matches!(found.errors[4], [Some(_), Some(_), None]), "{:?}", found.errors[4]);
    let [round] = found.open[5][..] else { panic!("{:?}", found.open) };
    let tangent = (points[0] - points[1]).cross(&(points[5] - points[0])).normalize();
    near(round.dot(&tangent).abs(), 1.0, 1e-6, "round the line through both marks");
    assert_eq!(
        found.checked.iter().filter(|c| c.standardised.is_some()).count(),
        3,
        "two coordinates from three tapes: each is checked"
    );
    assert!(found.open[..4].iter().all(Vec::is_empty));
    // Distances alone say nothing of where the axle is in the car; and no reading says nothing at all.
    let shape = (4..6).flat_map(|a| (0..4).map(move |b| [End::at(a), End::at(b)])).map(tape).collect();
    for tapes in [shape, Vec::new()] {
        let found = solved(points.clone(), tapes);
        assert!(found.errors.iter().flatten().all(Option::is_none), "{:?}", found.errors);
        assert!(found.open.iter().all(|open| open.len() >= 2), "{:?}", found.open);
        assert_eq!(found.places.len(), points.len());
    }
}

/// Readings that contradict each other are told; of two that do so alone, both may be the wrong one.
#[test]
fn contradictory_readings_are_told() {
    let points: Vec<Vec3> = MARKS.into_iter().chain([Vec3::new(20.0, 340.0, 190.0)]).collect();
    let mut tapes: Vec<Tape> = MARKS.iter().enumerate().flat_map(|(mark, at)| known(mark, *at)).collect();
    tapes.extend((0..3).map(|mark| {
        let ends = [End::at(4), End::at(mark)];
        Tape { what: What::Distance(ends), value: length(&points, ends), error: SIGMA }
    }));
    let twice = tapes.len() - 1;
    tapes.push(Tape { value: tapes[twice].value + 40.0, ..tapes[twice] });
    let found = solved(points.clone(), tapes.clone());
    assert!(!found.agree);
    let mut named: Vec<usize> = found.suspects.iter().map(|suspect| suspect.tape).collect();
    named.sort_unstable();
    assert_eq!(named, [twice, twice + 1]);
    for suspect in &found.suspects {
        near(suspect.by.abs(), 40.0, 1e-6, "against the other one");
    }
    // Of lengths that no place fits, the nearest is found all the same.
    for tape in tapes.iter_mut().filter(|tape| matches!(tape.what, What::Distance(_))) {
        tape.value = 1.0;
    }
    let found = solved(points, tapes);
    assert!(!found.agree && found.places.iter().flatten().all(|x| x.is_finite()));
}

/// What can't be is refused, and what is odd does no harm.
#[test]
fn odd_networks_are_refused_or_solved() {
    let tape = |value, error| Tape { what: What::Distance([End::at(0), End::at(1)]), value, error };
    let two = vec![Vec3::zeros(), Vec3::zeros()];
    for (points, tapes, fault) in [
        (vec![Vec3::new(f64::NAN, 0.0, 0.0)], vec![], Fault::Point(0)),
        (two.clone(), vec![tape(1.0, 1.0), tape(-1.0, 1.0)], Fault::Tape(1)),
        (two.clone(), vec![tape(1.0, 0.0)], Fault::Tape(0)),
        (two.clone(), vec![tape(f64::INFINITY, 1.0)], Fault::Tape(0)),
        (two.clone(), vec![tape(1.0, f64::MIN_POSITIVE / 2.0)], Fault::Tape(0)),
        (vec![Vec3::zeros()], vec![tape(1.0, 1.0)], Fault::Tape(0)),
        (two.clone(), vec![Tape { what: What::Coordinate(0, 3), ..tape(0.0, 1.0) }], Fault::Tape(0)),
        (two.clone(), vec![Tape { what: What::Distance([End::at(1); 2]), ..tape(0.0, 1.0) }], Fault::Tape(0)),
        (vec![Vec3::zeros(); 61], vec![], Fault::TooMany),
    ] {
        assert_eq!(Network::new(points, tapes), Err(fault));
    }
    // Two points that lie together can be taken apart.
    let found = solved(two, vec![tape(40.0, 1.0)]);
    near((found.places[0] - found.places[1]).norm(), 40.0, 1e-6, "apart");
    assert_eq!(solved(Vec::new(), Vec::new()).chi2, 0.0);
}

/// The script writes 12 digits; both searches end within a millionth of a mm of the least sum of squares, whose slope errors are taken at.
const ACCURACY: f64 = 2e-6;

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn index(value: &Value) -> usize {
    value.as_u64().unwrap_or_else(|| panic!("{value} is no index")) as usize
}

fn read(tape: &Value) -> Tape {
    let end = |i: usize| {
        let end = &tape["ends"][i];
        End { point: index(&end["point"]), on_floor: end["floor"] == true }
    };
    let coordinate = tape.get("coordinate").map(|of| What::Coordinate(index(&of[0]), index(&of[1])));
    let what = coordinate.unwrap_or_else(|| What::Distance([end(0), end(1)]));
    Tape { what, value: number(&tape["value"]), error: number(&tape["error"]) }
}

#[test]
fn a_general_solver_finds_the_same() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/reference/tape.json");
    let file: Value = serde_json::from_str(&std::fs::read_to_string(path).expect("the reference")).expect("JSON");
    let list = |value: &Value| value.as_array().expect("a list").clone();
    let (mut coordinates, mut open, mut named) = (0, 0, 0);
    for (name, networks) in file.as_object().expect("axles") {
        for network in list(networks) {
            let points = list(&network["points"]).iter().map(|p| Vec3::from_fn(|i, _| number(&p[i]))).collect();
            let tapes: Vec<Tape> = list(&network["tapes"]).iter().map(read).collect();
            let found = solved(points, tapes.clone());
            let what = format!("{name}, {}", network["kind"]);
            for (at, errors) in list(&network["errors"]).iter().enumerate() {
                for axis in 0..3 {
                    match (errors[axis].as_f64(), found.errors[at][axis]) {
                        (Some(should), Some(is)) => {
                            near(is, should, ACCURACY * should.max(1.0), &format!("{what}: σ of {at}, {axis}"));
                            let place = number(&network["places"][at][axis]);
                            near(found.places[at][axis], place, ACCURACY, &format!("{what}: {at}, {axis}"));
                            coordinates += 1;
                        }
                        (None, None) => open += 1,
                        (should, is) => panic!("{what}: σ of {at}, {axis} is {is:?}, not {should:?}"),
                    }
                }
            }
            for (at, left) in list(&network["left"]).iter().enumerate() {
                near(found.checked[at].left, number(left), ACCURACY, &format!("{what}: left of {at}"));
            }
            near(found.chi2, number(&network["chi2"]), ACCURACY * found.chi2.max(1.0), &what);
            assert_eq!(found.spare, index(&network["spare"]), "{what}");
            for suspect in &found.suspects {
                near(
                    suspect.by,
                    number(&network["others"][suspect.tape]),
                    10.0 * ACCURACY,
                    &format!("{what}: suspect"),
                );
                named += 1;
            }
            assert_eq!(network["kind"] == "wrong", !found.suspects.is_empty(), "{what}: {:?}", found.suspects);
        }
    }
    assert!(coordinates > 600 && open == 6 && named >= 6, "{coordinates} coordinates, {open} open, {named} named");
}
