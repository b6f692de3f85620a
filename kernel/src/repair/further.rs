//! The one further measurement that would decide between causes which explain what was found equally well.
//!
//! Each cause, with what may have been set since, is a car of its own, and what a gauge would read on it is solved. Two causes are told apart by
//! readings a and b of a gauge of the error ε if ((a − b)/ε)² is at least what tells two χ² apart. The measurement that tells most pairs apart is the
//! best, each pair counting by how likely both its causes are, exp(−(χ² − least χ²)/2) each; of those that tell as much, the one whose readings lie
//! furthest apart in units of its error. With two causes that is the one whose two readings lie furthest apart.

use super::causes::{Cause, Search, TOLD_APART};
use super::{Found, NoFit, Value};
use crate::axle::linkage_of;
use crate::layout::{Change, Layout, LeftOrRight, Member, Sides};
use crate::pose::{Demand, Height, Position, Steering, solve};
use crate::vary::{Outcome, Quantity, read};

/// Something that a workshop can measure.
#[derive(Clone, Copy)]
pub enum Gauge {
    /// A reading of a wheel.
    Reading(Outcome),
    /// A member by rule or calliper: how much longer it is than in the design, mm.
    Length(LeftOrRight, Member),
    /// Ride height on springs as the design has them: the travel at which the spring is as long as it should be where the car stands, mm.
    RideHeight(LeftOrRight),
}

/// The measurement that would decide.
#[derive(Clone)]
pub struct Further {
    /// What is to be measured.
    pub gauge: Gauge,
    /// Against the right wheel, as what was found is: left less right.
    pub against: bool,
    /// Its usual error, one standard deviation, in the unit of what is measured.
    pub error: f64,
    /// What it would read on each cause, in their order.
    pub reads: Vec<f64>,
    /// Pairs of causes that it tells apart.
    pub pairs: usize,
    /// The same, each by how likely both are.
    weight: f64,
}

/// What is read of a wheel, with a gauge's usual error: degrees of a rig's heads, mm of a plumb line and a tape (common practice, from memory).
const READ: [(&str, f64); 6] = [
    ("camber_deg", 0.03),
    ("toe_deg", 0.02),
    ("caster_sweep_deg", 0.1),
    ("kingpin_inclination_sweep_deg", 0.1),
    ("track_change_mm", 2.0),
    ("wheelbase_change_mm", 2.0),
];

/// The same of a member's length, mm: by calliper over its bolts.
const RULE: f64 = 0.3;

/// The same of ride height, mm: springs of one kind differ by more than a tape does.
const STANDS: f64 = 5.0;

/// How far up and down from where it was found a wheel is moved to be measured at another height, mm: what a workshop reaches without work on springs.
const OTHER_HEIGHT: f64 = 30.0;

/// The error of a height that is set, mm, where none is told: a tape's.
const SET: f64 = 2.0;

/// More causes than this are not told apart by one measurement; the first count.
const MOST: usize = 12;

impl Further {
    /// The best measurement for some causes of what was found; `None` where there is nothing to decide, or nothing to measure.
    pub fn between(causes: &[Cause], search: &Search) -> Result<Option<Further>, NoFit> {
        let causes = &causes[..causes.len().min(MOST)];
        if causes.len() < 2 {
            return Ok(None);
        }
        let cars = causes.iter().map(|cause| search.built(cause)).collect::<Result<Vec<_>, _>>()?;
        let against = search.found().values.iter().any(|value| value.less.is_some());
        let least = causes.iter().map(|cause| cause.chi2).fold(f64::INFINITY, f64::min);
        let likely: Vec<f64> = causes.iter().map(|cause| (0.5 * (least - cause.chi2)).exp()).collect();
        let measured = |(gauge, error)| {
            let reads =
                cars.iter().map(|car| told(gauge, against, car, search.layout())).collect::<Option<Vec<_>>>()?;
            let error = if against { error * 2.0_f64.sqrt() } else { error };
            let (pairs, weight) = told_apart(&reads, error, &likely);
            Some(Further { gauge, against, error, reads, pairs, weight })
        };
        let all = gauges(causes, search).into_iter().filter_map(measured);
        // Of equals the first: what is read where the car stands is the least work.
        Ok(all.reduce(|best, next| if next.rank() > best.rank() { next } else { best }))
    }

    /// How far apart its readings lie, in units of its error.
    pub fn apart(&self) -> f64 {
        let [least, most] = self.reads.iter().fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], read| {
            [f64::min(least, *read), f64::max(most, *read)]
        });
        (most - least) / self.error
    }

    fn rank(&self) -> (f64, f64) {
        (self.weight, self.apart())
    }
}

/// The pairs that are told apart, and their weight.
fn told_apart(reads: &[f64], error: f64, likely: &[f64]) -> (usize, f64) {
    let told = |i: usize, j: usize| ((reads[i] - reads[j]) / error).powi(2) >= TOLD_APART;
    let pairs = (0..reads.len()).flat_map(|i| (0..i).map(move |j| (i, j))).filter(|(i, j)| told(*i, *j));
    pairs.fold((0, 0.0), |(count, weight), (i, j)| (count + 1, weight + likely[i] * likely[j]))
}

/// Everything that could be measured further, with its error, on the wheels that the causes are of.
fn gauges(causes: &[Cause], search: &Search) -> Vec<(Gauge, f64)> {
    let (found, layout) = (search.found(), search.layout());
    let against = found.values.iter().any(|value| value.less.is_some());
    let of = |side| causes.iter().any(|cause| matches!(cause.of, Sides::Both) || cause.of == Sides::One(side));
    let mut gauges = Vec::new();
    for side in
        LeftOrRight::BOTH.into_iter().filter(|side| if against { *side == LeftOrRight::Left } else { of(*side) })
    {
        let places = found.values.iter().flat_map(Value::places).filter(|at| at.side == side);
        let stands = places.map(|at| at.travel).next().unwrap_or(layout.changes.ride());
        let height_error = if found.height_error > 0.0 { found.height_error } else { SET };
        for travel in [stands, stands + OTHER_HEIGHT, stands - OTHER_HEIGHT] {
            for (column, error) in READ {
                let Some(quantity) = Quantity::named(column) else { continue };
                let at = Outcome { quantity, side, travel, rack: 0.0 };
                if !known(found, &at) {
                    let error = slope(layout, at).map_or(error, |slope| error.hypot(slope * height_error));
                    gauges.push((Gauge::Reading(at), error));
                }
            }
        }
        let set = |member| found.adjusted.contains(&Change::Length(member));
        let members = Change::all(layout).into_iter().filter_map(|change| match change {
            Change::Length(member) if !set(member) => Some(member),
            _ => None,
        });
        gauges.extend(members.map(|member| (Gauge::Length(side, member), RULE)));
        gauges.push((Gauge::RideHeight(side), STANDS));
    }
    gauges
}

/// True for what was found already.
fn known(found: &Found, at: &Outcome) -> bool {
    let same = |value: &Outcome| {
        let place = (value.quantity.column(), value.side, value.travel) == (at.quantity.column(), at.side, at.travel);
        place && (value.rack == at.rack || at.quantity.is_swept())
    };
    found.values.iter().any(|value| same(&value.outcome))
}

/// What a reading changes per mm of height: over the way between the heights.
fn slope(layout: &Layout, at: Outcome) -> Option<f64> {
    let ends = [-OTHER_HEIGHT, OTHER_HEIGHT].map(|by| Outcome { travel: at.travel + by, ..at });
    let reads = read(layout, &ends).ok()?;
    Some((reads[1]? - reads[0]?) / (2.0 * OTHER_HEIGHT))
}

/// What a gauge reads on a car; against the right wheel what it reads of the left one less that.
fn told(gauge: Gauge, against: bool, car: &Layout, layout: &Layout) -> Option<f64> {
    let right = match gauge {
        _ if !against => return alone(gauge, car, layout),
        Gauge::Reading(at) => Gauge::Reading(Outcome { side: LeftOrRight::Right, ..at }),
        Gauge::Length(_, member) => Gauge::Length(LeftOrRight::Right, member),
        Gauge::RideHeight(_) => Gauge::RideHeight(LeftOrRight::Right),
    };
    Some(alone(gauge, car, layout)? - alone(right, car, layout)?)
}

fn alone(gauge: Gauge, car: &Layout, layout: &Layout) -> Option<f64> {
    match gauge {
        Gauge::Reading(at) => read(car, &[at]).ok()?[0],
        Gauge::Length(side, member) => {
            Some(car.changes.of(side).get(&Change::Length(member)).copied().unwrap_or_default())
        }
        Gauge::RideHeight(side) => {
            let should = linkage_of(layout, side).ok()?;
            let stands = solve(&should, Demand::new(layout.changes.ride(), 0.0), &Position::at_rest(&should)).ok()?;
            let length = should.spring().evaluate(&stands.position.pose).0;
            let demand = Demand { height: Height::SpringLength(length), steering: Steering::Rack(0.0) };
            let built = linkage_of(car, side).ok()?;
            Some(built.travel(&solve(&built, demand, &Position::at_rest(&built)).ok()?.position.pose))
        }
    }
}
