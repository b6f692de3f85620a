//! Ride: wheel rate, frequency, preload, ride height, anti-roll bar, and the support of braking and drive.
//!
//! With i = −dL/ds the motion ratio over travel s, and F the spring's force, the spring's vertical force at the wheel is F·i by virtual
//! work, so the wheel rate has a term of the spring's stiffness and one of the changing ratio:
//! ```text
//! k_wheel = d(F i)/ds = k i² + F di/ds
//! ```
//! di/ds is the one second derivative the kernel needs; it is taken from solved states at ±h, ±2h, extrapolated (Richardson), good to
//! about 1e-9 of its size: the only differences in the kernel. It is the rate at the wheel centre; the contact force's own rate differs from
//! it by the little that the contact point rises more or less than the wheel centre (under 1 % at rest on usual front axles).

use crate::frame::Vec3;
use crate::layout::{AntiRollBar, Layout, RollFrom, Vehicle};
use crate::linkage::Linkage;
use crate::loads::{Load, Setting, Statics};
use crate::pose::Demand;
use crate::state::State;
use std::f64::consts::PI;

/// Step of travel for di/ds, mm.
const STEP: f64 = 0.5;

/// An axle has settled when it would move by less than this, mm.
const SETTLED: f64 = 1e-9;

/// Steps towards it that are tried.
const SETTLING: usize = 60;

/// The longest of them, mm.
const MOST_STEP: f64 = 40.0;

/// The springing of one corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Springing {
    /// Spring stiffness, N/mm.
    pub rate: f64,
    /// Force of the spring at rest, N.
    pub preload: f64,
    /// Its length without load, mm.
    pub free_length: f64,
}

impl Springing {
    /// The spring of a layout that carries the vehicle's standing load at rest; `None` where it can't, or has nothing to carry.
    pub fn of(layout: &Layout, rest: &State) -> Option<Springing> {
        let vehicle = layout.vehicle();
        if vehicle.trouble().is_some() {
            return None;
        }
        let preload = asked(rest, &Load::braking(&vehicle, 0.0))?;
        let rate = layout.spring.rate;
        Some(Springing { rate, preload, free_length: rest.spring_length + preload / rate })
    }

    /// Its force at a length, N.
    pub fn force(&self, length: f64) -> f64 {
        self.rate * (self.free_length - length)
    }

    /// Vertical force at the wheel, N, and wheel rate, N/mm, at a state.
    pub fn at_wheel(&self, linkage: &Linkage, state: &State) -> Option<(f64, f64)> {
        let (i, force) = (state.bump.motion_ratio, self.force(state.spring_length));
        Some((force * i, self.rate * i * i + force * ratio_slope(linkage, state)?))
    }

    /// The travel, mm, at which this spring alone holds a load on the wheel, at a state's rack: how far the car sinks (+) or rises (−). Both
    /// wheels are taken to bear it, so that an anti-roll bar does nothing; stops are not in it. Newton's method on the spring's force, with the
    /// wheel rate as slope.
    pub fn settles(&self, linkage: &Linkage, load: &Load, from: &State) -> Option<f64> {
        let (mut travel, mut guess) = (from.travel, from.position);
        for _ in 0..SETTLING {
            let state = State::solve(linkage, Demand::new(travel, from.position.rack), &guess).ok()?;
            guess = state.position;
            let lacking = asked(&state, load)? - self.force(state.spring_length);
            let (_, rate) = self.at_wheel(linkage, &state)?;
            let step = lacking * state.bump.motion_ratio / rate;
            travel += step.clamp(-MOST_STEP, MOST_STEP);
            if step.abs() < SETTLED {
                return Some(travel);
            }
        }
        None
    }

    /// The braking, in g, under which a state is where the axle settles; `None` where no braking that a car reaches makes it.
    ///
    /// What a load asks of the spring is linear in the load: with F_0 and F_1 what standing and one g ask, a = (F − F_0)/(F_1 − F_0).
    pub fn braking_at(&self, state: &State, vehicle: &Vehicle) -> Option<f64> {
        let standing = asked(state, &Load::braking(vehicle, 0.0))?;
        let per_g = asked(state, &Load::braking(vehicle, 1.0))? - standing;
        let braking = (self.force(state.spring_length) - standing) / per_g;
        (-SETTLED..vehicle.most_braking()).contains(&braking).then(|| braking.max(0.0))
    }
}

/// The force of the spring that a load asks for, N.
fn asked(state: &State, load: &Load) -> Option<f64> {
    Statics::at(state).members(&load.wrench(state)).map(|members| members.spring)
}

/// d(motion ratio)/d(travel), 1/mm, at the state's rack.
pub fn ratio_slope(linkage: &Linkage, state: &State) -> Option<f64> {
    let ratio = |step: f64| {
        let demand = Demand::new(state.travel + step, state.position.rack);
        State::solve(linkage, demand, &state.position).ok().map(|state| state.bump.motion_ratio)
    };
    let slope = |h: f64| Some((ratio(h)? - ratio(-h)?) / (2.0 * h));
    let (fine, coarse) = (slope(STEP)?, slope(2.0 * STEP)?);
    Some(fine + (fine - coarse) / 3.0)
}

/// Undamped frequency of a mass on a wheel rate, Hz; kg and N/mm. `None` for a rate or a mass that is not positive.
pub fn frequency(rate: f64, mass: f64) -> Option<f64> {
    (rate > 0.0 && mass > 0.0).then(|| (rate * 1000.0 / mass).sqrt() / (2.0 * PI))
}

/// Shear modulus of steel, N/mm² (EN 1993-1-1, 3.2.6: 81 000, from memory).
const SHEAR: f64 = 81_000.0;

/// Half an anti-roll bar at a position of its wheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BarState {
    /// Turn of this half from rest, degrees, positive in bump for the usual drop-link arrangement.
    pub turn: f64,
    /// Turn per travel, rad/mm.
    pub per_travel: f64,
    /// The lever's end now, mm.
    pub lever: Vec3,
    /// The drop link's other end now, mm.
    pub link: Vec3,
}

impl AntiRollBar {
    /// Stiffness of the whole bar against a turn of one end, N·mm/rad: given, or that of a round steel bar between its bearings
    /// (G π d⁴/32 per length). Levers, and what of the bar lies between bearing and lever, are taken as rigid.
    pub fn twist_rate(&self) -> f64 {
        self.stiffness.map_or_else(
            || SHEAR * PI * self.diameter.powi(4) / 32.0 / (2.0 * self.pivot.y.abs()).max(1.0),
            |given| given * 1000.0 * 1.0_f64.to_degrees(),
        )
    }
}

impl BarState {
    /// The left half of the layout's bar at a state; `None` without one, or where the drop link can't reach.
    ///
    /// The lever's end A turns about the bar's axis (along y through the pivot) and keeps its y; the drop link keeps its length to B, which
    /// rides on its part as a spring's foot does. In the plane of A that is where two circles meet:
    /// ```text
    /// A = P + r(cos θ, sin θ),  ‖A − B‖ = l   ⇒   b·(cos, sin) = (r² + ‖b‖² − l² + b_y²)/(2r),  b = B − P in the plane, b_y out of it
    /// ```
    /// With u from A to B and e the axis, the rate follows from u·(v_B − θ' e×(A−P)) = 0.
    pub fn at(layout: &Layout, linkage: &Linkage, state: &State) -> Option<BarState> {
        let bar = layout.anti_roll_bar.as_ref()?;
        let follower = linkage.bar.as_ref()?;
        let pose = &state.position.pose;
        let arm = bar.lever - bar.pivot;
        let (r, length) = (arm.x.hypot(arm.z), (bar.link - bar.lever).norm());
        let rest = arm.z.atan2(arm.x);
        let link = follower.foot(pose);
        let b = link - bar.pivot;
        let out = b.y - arm.y;
        let flat = b.x.hypot(b.z);
        let cosine = (r * r + flat * flat - (length * length - out * out)) / (2.0 * r * flat);
        if !(-1.0..=1.0).contains(&cosine) || r <= 0.0 {
            return None;
        }
        let towards = b.z.atan2(b.x);
        let from_rest = |angle: f64| (angle - rest + PI).rem_euclid(2.0 * PI) - PI;
        let turns = [towards + cosine.acos(), towards - cosine.acos()].map(from_rest);
        // Of the two places the one on the side of rest: the link can't pass through its own line with the lever.
        let side = |turn: f64| ((rest + turn) - towards + PI).rem_euclid(2.0 * PI) - PI;
        let at_rest = (bar.link - bar.pivot).z.atan2((bar.link - bar.pivot).x);
        let same = (rest - at_rest + PI).rem_euclid(2.0 * PI) - PI;
        let turn = turns.into_iter().find(|turn| side(*turn) * same >= 0.0).unwrap_or(turns[0]);
        let lever = bar.pivot + Vec3::new(r * (rest + turn).cos(), arm.y, r * (rest + turn).sin());
        let line = follower.distance(lever, pose).1;
        // Turning x towards z is turning about −y.
        let u = (link - lever).try_normalize(0.0)?;
        let swing = u.dot(&(-Vec3::y()).cross(&(lever - bar.pivot)));
        if swing.abs() < 1e-6 {
            return None;
        }
        Some(BarState { turn: turn.to_degrees(), per_travel: line.rate(&state.bump.twist) / swing, lever, link })
    }
}

/// Roll stiffness of the axle, N·m per degree, of the springs and of the bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RollStiffness {
    /// Of the two springs: k_wheel t²/2.
    pub springs: f64,
    /// Of the anti-roll bar: c (θ' t)², 0 without one.
    pub bar: f64,
}

impl RollStiffness {
    /// With the mean wheel rate of both wheels and the mean turn of both halves of the bar per travel, rad/mm; `track` in mm.
    pub fn of(wheel_rate: f64, track: f64, bar: Option<(&AntiRollBar, f64)>) -> RollStiffness {
        // N·mm per radian → N·m per degree.
        let scale = 1.0_f64.to_radians() / 1000.0;
        let twist = bar.map_or(0.0, |(bar, per_travel)| bar.twist_rate() * (per_travel * track).powi(2));
        RollStiffness { springs: wheel_rate * track * track / 2.0 * scale, bar: twist * scale }
    }

    /// Of an axle, from both wheels' states as left ones, in a track of so many mm; `None` where a spring carries nothing.
    pub fn at(
        layout: &Layout,
        linkage: &Linkage,
        springing: &Springing,
        sides: [&State; 2],
        track: f64,
    ) -> Option<RollStiffness> {
        let rate = |state| springing.at_wheel(linkage, state).map(|(_, rate)| rate);
        let turn = |state| BarState::at(layout, linkage, state).map(|bar| bar.per_travel);
        let bar = layout.anti_roll_bar.as_ref().zip(both(sides.map(turn)));
        Some(RollStiffness::of(both(sides.map(rate))?, track, bar))
    }

    /// Of an axle at rest, both wheels alike.
    pub fn at_rest(layout: &Layout, linkage: &Linkage, rest: &State) -> Option<RollStiffness> {
        let springing = Springing::of(layout, rest)?;
        let half_track = rest.position.pose.w.y + rest.attitude.contact.y;
        RollStiffness::at(layout, linkage, &springing, [rest; 2], 2.0 * half_track)
    }

    /// The bar's share.
    pub fn share(&self) -> f64 {
        self.bar / (self.springs + self.bar)
    }
}

impl Setting {
    /// What the load cases of an axle depend on, from its state at rest, with the roll stiffness of its own springs and anti-roll bar where
    /// the vehicle asks for it and the springs carry.
    pub fn at_rest(layout: &Layout, linkage: &Linkage, rest: &State) -> Setting {
        let setting = Setting::new(layout, rest);
        let own = Some(setting.vehicle.roll_stiffness_from).filter(|from| *from == RollFrom::Axle);
        match own.and_then(|_| RollStiffness::at_rest(layout, linkage, rest)) {
            Some(own) => Setting { front_stiffness: own.springs + own.bar, ..setting },
            None => setting,
        }
    }
}

/// The mean of two wheels' numbers, where both have one.
pub fn both([left, right]: [Option<f64>; 2]) -> Option<f64> {
    Some(f64::midpoint(left?, right?))
}

/// Anti-dive, or what a drive force lifts, in percent of what would hold the body level: share · tangent · wheelbase/height · 100.
/// `share` is the front axle's share of the force. Positive: against the dive or the lift.
pub fn support(share: f64, tangent: f64, vehicle: &Vehicle) -> f64 {
    share * tangent * vehicle.wheelbase / vehicle.cg_height.max(f64::MIN_POSITIVE) * 100.0
}
