//! What one wheel's rows put on what gives way, and how they give way for it: C, A and b of the model.
//!
//! Let p_k be the force on body end k, P_k its row-wise parts: p_k = P_k T. With D_k = K⁻¹ of its bush and β_k the movement of what it is bolted
//! to, the end moves by D_k p_k + β_k, and by virtual work the rows give way by Σ P_kᵀ (D_k p_k + β_k), besides T/along of an arm itself. So
//! ```text
//! C = Σ P_kᵀ D_k P_k + 1/along,    A = Σ P_kᵀ (1, −[a_k]) over what the subframe carries,  a_k the body end's place: β = v + ω×a_k
//! ```
//! An arm's own row pulls along its line: P = u. A strut's two rows pull across its line at the mount: P = (A₁, A₂).
//!
//! **Wishbone.** Its legs, taken as rods, pull u_f at a and u_r at b; so much equilibrium says. The two bushes share what runs along e, the line from
//! a to b, by their stiffness: p_a = P_a T + x e, p_b = P_b T − x e with the x for which the ends move alike along e (Castigliano):
//! ```text
//! s x + g T + ℓ η = 0,   g = eᵀ(D_a P_a − D_b P_b),   s = eᵀ(D_a + D_b)e,   ℓ = the line of e through a, if carried, less that through b, if carried
//! C gains −gᵀg/s,   A gains −gᵀℓ/s,   K gains ℓᵀℓ/s     (ℓ = 0 where the subframe carries both or none)
//! ```
//! Nothing acts across the wishbone's plane; so this is the inverse of the free wishbone's stiffness in its plane.
//!
//! **The spring as sixth row.** A spring in tension pulls the foot along −s and, through the member that it rides on, the carrier as a rod along its
//! equivalent line with gradient g: the member feels g at its outer joint and −s at the foot. So an arm hands g − s to its body end and a couple to
//! what it is bolted to (its bush keeps it from spinning); a wishbone hands them to both ends by its equilibrium, with e×. What rides
//! on the carrier, and a pad, put nothing there. The spring's upper end is on the body, but a spring without an end of its own stands on the strut's
//! mount and pulls it with s.

use super::Held;
use super::bushes::End;
use crate::frame::Vec3;
use crate::layout::Part;
use crate::linkage::{Constraint, Linkage, Row, TRACK_ROD};
use crate::math::{Line, matrix};
use crate::state::State;
use nalgebra::{Matrix3x6, Matrix6, RowVector6, Vector6};

/// The row that holds the wheel up.
const HOLDS: usize = 5;

/// One wheel. Moments and turns of the subframe are about the origin.
pub(super) struct Wheel {
    /// G = J⁻¹.
    pub g: Matrix6<f64>,
    /// C: how each row gives way, mm, per tension of each row, N.
    pub c: Matrix6<f64>,
    /// A: a row's wrench on the subframe per tension.
    pub a: Matrix6<f64>,
    /// b: a row's force on the rack's bar along y per tension.
    pub b: Vector6<f64>,
    /// What wishbones half on the subframe add to its stiffness K.
    pub braced: Matrix6<f64>,
    /// Each row's body end; a strut's two rows share one.
    pub body: [BodyEnd; 5],
}

/// What a body end feels: P T, and of a wishbone's joint x e besides, or −x e, with x = −(gT + ℓη)/s.
#[derive(Clone, Copy, Default)]
pub(super) struct BodyEnd {
    /// P.
    pub p: Matrix3x6<f64>,
    /// Where it is, in the axes of a left wheel's car.
    pub at: Vec3,
    /// e at a wishbone's front joint, −e at the rear one.
    pub shares: Vec3,
    /// g/s.
    pub by_rows: RowVector6<f64>,
    /// ℓ/s, in the axes of a left wheel's car.
    pub by_subframe: RowVector6<f64>,
}

/// What the spring does to the member that it rides on, per tension of the spring. Places in the car's axes.
struct Pull {
    /// g, at the outer joint.
    outer: Vec3,
    /// −s, at the foot.
    foot: Vec3,
    at: Vec3,
}

impl Wheel {
    /// At a state; `None` where the rows don't hold the carrier.
    pub fn at(linkage: &Linkage, ends: &[End; 5], state: &State, held: Held) -> Option<Wheel> {
        let holds = match held {
            Held::ByPads => Line::through(state.attitude.contact, Vec3::z()),
            Held::BySprings => state.spring,
        };
        let [l0, l1, l2, l3, l4] = state.guides;
        let g = matrix(&[l0, l1, l2, l3, l4, holds]).try_inverse()?;
        let zero = Matrix6::zeros();
        let body = [BodyEnd::default(); 5];
        let mut wheel = Wheel { g, c: zero, a: zero, b: Vector6::zeros(), braced: zero, body };
        if linkage.steered {
            wheel.b[TRACK_ROD] = state.guides[TRACK_ROD].u.y;
        }
        let pull = (held == Held::BySprings).then(|| pull(linkage, state));
        for (first, rows) in linkage.parts() {
            let pull = pull.as_ref().filter(|_| linkage.spring_part() == Some(rows[0].part));
            match rows {
                [strut, _] if strut.part == Part::Strut => {
                    let spring = (held == Held::BySprings).then(|| linkage.spring().ends(&state.position.pose));
                    wheel.strut(state, strut, first, &ends[first], spring);
                }
                [front, rear] => wheel.wishbone(state, [front, rear], first, &ends[first..], pull),
                _ => wheel.arm(state, &rows[0], first, &ends[first], pull),
            }
        }
        Some(wheel)
    }

    /// The right wheel's, with subframe and rack in the car's axes: a twist (v, ω) is seen from the other side as (v_x, −v_y, v_z, −ω_x, ω_y, −ω_z).
    pub fn mirrored(mut self) -> Wheel {
        for odd in [1, 3, 5] {
            self.a.column_mut(odd).neg_mut();
            self.braced.column_mut(odd).neg_mut();
            self.braced.row_mut(odd).neg_mut();
        }
        self.b.neg_mut();
        self
    }

    fn arm(&mut self, state: &State, row: &Row, i: usize, end: &End, pull: Option<&Pull>) {
        let [inner, outer] = places(row, state);
        let mut p = Matrix3x6::zeros();
        p.set_column(i, &state.guides[i].u);
        if let Some(pull) = pull {
            p.set_column(HOLDS, &(pull.outer + pull.foot));
            if end.carried {
                let couple = (outer - inner).cross(&pull.outer) + (pull.at - inner).cross(&pull.foot);
                let mut moment = self.a.fixed_view_mut::<1, 3>(HOLDS, 3);
                moment += couple.transpose();
            }
        }
        self.c[(i, i)] += end.along;
        self.add(i, &p, end, inner);
    }

    /// `spring`: its ends, where it holds the wheel.
    fn strut(&mut self, state: &State, row: &Row, i: usize, end: &End, spring: Option<[Vec3; 2]>) {
        let [mount, _] = places(row, state);
        let mut p = Matrix3x6::zeros();
        p.set_column(i, &state.guides[i].u);
        p.set_column(i + 1, &state.guides[i + 1].u);
        if let Some([top, foot]) = spring.filter(|[top, _]| *top == mount) {
            p.set_column(HOLDS, &(foot - top).try_normalize(0.0).unwrap_or_else(Vec3::zeros));
        }
        self.add(i, &p, end, mount);
        self.body[i + 1] = self.body[i];
    }

    fn wishbone(&mut self, state: &State, rows: [&Row; 2], i: usize, ends: &[End], pull: Option<&Pull>) {
        let [[a, outer], [b, _]] = rows.map(|row| places(row, state));
        let length = (b - a).norm();
        let e = (b - a) / length;
        let (mut pa, mut pb) = (Matrix3x6::zeros(), Matrix3x6::zeros());
        pa.set_column(i, &state.guides[i].u);
        pb.set_column(i + 1, &state.guides[i + 1].u);
        if let Some(pull) = pull {
            let sum = pull.outer + pull.foot;
            let moment = (outer - a).cross(&pull.outer) + (pull.at - a).cross(&pull.foot);
            // What runs along e goes to either end here; the bushes share it below.
            let rear = -e.cross(&moment) / length;
            pa.set_column(HOLDS, &(sum - rear));
            pb.set_column(HOLDS, &rear);
        }
        self.add(i, &pa, &ends[0], a);
        self.add(i + 1, &pb, &ends[1], b);
        let (da, db) = (ends[0].give, ends[1].give);
        let s = (e.transpose() * (da + db) * e).x;
        if s > 0.0 {
            let g: RowVector6<f64> = e.transpose() * (da * pa - db * pb);
            let line = |end: &End, at: Vec3| if end.carried { Line::through(at, e).row() } else { RowVector6::zeros() };
            let l = if ends[0].carried == ends[1].carried {
                RowVector6::zeros()
            } else {
                line(&ends[0], a) - line(&ends[1], b)
            };
            self.c -= g.transpose() * g / s;
            self.a -= g.transpose() * l / s;
            self.braced += l.transpose() * l / s;
            for (joint, shares) in [(i, e), (i + 1, -e)] {
                let of_both = BodyEnd { shares, by_rows: g / s, by_subframe: l / s, ..self.body[joint] };
                self.body[joint] = of_both;
            }
        }
    }

    /// A row's body end there, with its P.
    fn add(&mut self, row: usize, p: &Matrix3x6<f64>, end: &End, at: Vec3) {
        self.body[row] = BodyEnd { p: *p, at, ..BodyEnd::default() };
        self.c += p.transpose() * (end.give * p);
        if end.carried {
            let mut force = self.a.fixed_columns_mut::<3>(0);
            force += p.transpose();
            let mut moment = self.a.fixed_columns_mut::<3>(3);
            moment += (at.cross_matrix() * p).transpose();
        }
    }
}

/// What the spring does to its member; with a rocker, the rod from the rocker.
fn pull(linkage: &Linkage, state: &State) -> Pull {
    let pose = &state.position.pose;
    let at = linkage.spring().foot(pose);
    let (from, ratio) = linkage.spring().rocker_at(pose).map_or((linkage.spring().top, 1.0), |r| (r.rod, r.ratio));
    let s = (at - from).try_normalize(0.0).unwrap_or_else(Vec3::zeros) * ratio;
    Pull { outer: state.spring.u, foot: -s, at }
}

/// A row's ends, on the body and on the carrier, in the car's axes.
fn places(row: &Row, state: &State) -> [Vec3; 2] {
    let pose = &state.position.pose;
    let (Constraint::Rod { outer, .. } | Constraint::Slide { foot: outer, .. }) = row.constraint;
    [row.constraint.inner_at(state.position.rack), pose.place(outer)]
}
