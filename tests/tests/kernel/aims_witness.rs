//! Spread, goals and fit, against `reference/vary_reference.py`: SciPy's least squares and NumPy's random numbers on poses of a general root finder,
//! written from the formats' description by somebody who had not seen the kernel. Grade: computed.

use kernel::vary::fit::Measured;
use kernel::vary::goals::{Goals, Search};
use kernel::vary::spread::{Asked, Spread};
use kernel::{Layout, LeftOrRight};
use serde_json::Value;
use tests::near;

/// Slopes agree to this part: both are differences of differences where a reading is a rate itself, the kernel's over 0.001 mm.
const SLOPES: f64 = 1e-6;

/// So many axles are drawn when nothing else is said.
const DRAWN: u32 = 10_000;

fn reference() -> Value {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/reference/vary.json");
    serde_json::from_str(&std::fs::read_to_string(file).expect("the file")).expect("JSON")
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

fn layout(reference: &Value, entry: &Value) -> Layout {
    Layout::from_value(&reference["layouts"][entry["axle"].as_str().expect("a name")]).expect("a layout")
}

/// What is said of the outcome of a row, which begins with its travel and reading.
fn at(spread: &Spread, row: &Value) -> usize {
    let is = |outcome: &kernel::vary::Outcome| outcome.travel == number(&row[0]) && row[1] == outcome.quantity.column();
    spread.outcomes().iter().position(is).unwrap_or_else(|| panic!("no {row}"))
}

#[test]
fn linear_spread_is_the_witness_s() {
    let reference = reference();
    let mut wrong = Vec::new();
    for entry in list(&reference["spread"]) {
        let layout = layout(&reference, entry);
        let asked = Asked::from_json(&entry["errors"].to_string(), &layout).expect("errors");
        let spread = Spread::new(&layout, LeftOrRight::Left, &asked, 1, |_| false).expect("an axle");
        for row in list(&entry["rows"]) {
            let off = spread.off(at(&spread, row)).expect("a value");
            for (i, is) in (2..).zip([off.value, off.sigma_linear, off.worst_linear]) {
                let should = number(&row[i]);
                if (is - should).abs() > SLOPES * should.abs() + 1e-10 {
                    wrong.push(format!("{} {} {row}, {i}: {is}", entry["axle"], entry["errors"]["kind"]));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Two samples: means within five times σ √(1/n + 1/m), deviations within five times σ √(1/2n + 1/2m).
#[test]
fn what_is_drawn_spreads_as_the_witness_s() {
    let reference = reference();
    let mut compared = 0;
    for entry in list(&reference["spread"]).iter().filter(|entry| !entry["drawn"].is_null()) {
        let layout = layout(&reference, entry);
        let asked = Asked::from_json(&entry["errors"].to_string(), &layout).expect("errors");
        let mut spread = Spread::new(&layout, LeftOrRight::Left, &asked, 1, |_| true).expect("an axle");
        (0..DRAWN).for_each(|_| spread.draw());
        let chance = (1.0 / f64::from(DRAWN) + 1.0 / number(&entry["drawn"]["count"])).sqrt();
        for row in list(&entry["drawn"]["rows"]) {
            let drawn = spread.off(at(&spread, row)).expect("a value").drawn.expect("drawn");
            let (mean, sigma) = (number(&row[2]), number(&row[3]));
            near(drawn.mean, mean, 5.0 * sigma * chance, &format!("mean of {row}"));
            near(drawn.sigma, sigma, 5.0 * sigma * chance / 2.0_f64.sqrt(), &format!("deviation of {row}"));
            compared += 1;
        }
    }
    assert!(compared >= 6, "{compared}");
}

#[test]
fn goals_are_met_as_well_as_by_the_witness() {
    let reference = reference();
    let mut wrong = Vec::new();
    for entry in list(&reference["goals"]) {
        let layout = layout(&reference, entry);
        let goals = Goals::from_json(&entry["question"].to_string(), &layout).expect("goals");
        let mut search = Search::new(&layout, goals).expect("an axle");
        (0..search.starts()).for_each(|_| search.step());
        let best = &search.answers()[0];
        let mut differs = best.sum > number(&entry["sum"]) + 1e-6;
        for (is, should) in best.numbers.iter().zip(list(&entry["numbers"])) {
            differs |= (is - number(should)).abs() > 1e-3;
        }
        if differs {
            wrong.push(format!("{}: {best:?}, not {} {}", entry["axle"], entry["sum"], entry["numbers"]));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn fits_are_the_witness_s() {
    let reference = reference();
    for entry in list(&reference["fit"]) {
        let layout = layout(&reference, entry);
        let measured = Measured::from_json(&entry["question"].to_string(), &layout).expect("readings");
        let fitted = measured.fit(&layout).expect("a fit");
        near(fitted.chi2, number(&entry["chi2"]), 1e-6, "chi2");
        assert_eq!(fitted.numbers.len(), list(&entry["parameters"]).len());
        for (i, name) in list(&entry["parameters"]).iter().enumerate() {
            let is = fitted.numbers.iter().find(|is| *name == is.parameter.name(&layout)).expect("a number");
            let what = format!("{} {name}", entry["axle"]);
            near(is.fitted, number(&entry["numbers"][i]), 1e-4, &what);
            let left = number(&entry["left"][i]);
            near(is.left.expect("determined"), left, 1e-3 * left, &what);
        }
    }
}

/// What a fit says of its own uncertainty is what axles that have the readings scatter by: brute force, without a slope. Means within five times σ/√n of
/// the ensemble's effective number n, deviations within five times σ/√2n.
#[test]
fn a_fit_s_uncertainty_is_that_of_the_witness_s_ensemble() {
    let reference = reference();
    let mut compared = 0;
    for entry in list(&reference["fit"]).iter().filter(|entry| !entry["ensemble"].is_null()) {
        let layout = layout(&reference, entry);
        let measured = Measured::from_json(&entry["question"].to_string(), &layout).expect("readings");
        let fitted = measured.fit(&layout).expect("a fit");
        let ensemble = &entry["ensemble"];
        let chance = 5.0 / number(&ensemble["effective"]).sqrt();
        for (i, name) in list(&entry["parameters"]).iter().enumerate() {
            let is = fitted.numbers.iter().find(|is| *name == is.parameter.name(&layout)).expect("a number");
            let sigma = number(&ensemble["sigmas"][i]);
            near(is.fitted, number(&ensemble["means"][i]), chance * sigma, &format!("mean of {name}"));
            near(is.left.expect("determined"), sigma, chance / 2.0_f64.sqrt() * sigma, &format!("deviation of {name}"));
            compared += 1;
        }
    }
    assert!(compared >= 6, "{compared}");
}

#[path = "../../reference/samples.rs"]
mod samples;

#[test]
fn a_seed_draws_the_witness_s_axles() {
    samples::same_samples(&reference());
}
