//! The anti-roll bar: how far it is turned, and how stiff it is.

use crate::frame::Vec3;
use crate::layout::{AntiRollBar, Layout};
use crate::linkage::Linkage;
use crate::state::State;
use std::f64::consts::PI;

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
        let (follower, _) = linkage.bar.as_ref()?;
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
