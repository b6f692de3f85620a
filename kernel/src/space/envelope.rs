//! The room that a tyre takes up at many positions: the union of them all, in columns across the car.
//!
//! The plane of x and z is divided into squares; through the middle of each runs a line along y, and what a tyre has of it is one interval, for a
//! tyre is convex. A column keeps the union of the intervals of all tyres. Its volume is the sum of their lengths up to a side plane; the least y of
//! each column is the depth of the wheel arch seen from outside.
//!
//! **An end of an interval.** With t the way along the line, h is linear in t. The tyre lies in the slab |h| ≤ w/2; where the line enters the slab
//! within the flat flank (ρ ≤ R − s), that is the end. If not, the distance to the tyre is positive there and convex along the line, so Newton's
//! steps
//! ```text
//! t ← t − f/f',   f = hypot(g, e) − s,   g = max(ρ − (R − s), 0),   e = max(|h| − (w/2 − s), 0),   f' = (g ρ' + e |h|')/(f + s)
//! ```
//! from there never pass the end, and quickly come near; where f' changes its sign before, the line passes the tyre by.

use super::contour::{Border, Edge, borders};
use super::tyre::Tyre;
use crate::frame::Vec3;

/// The union of tyres at many positions.
#[derive(Clone, Debug)]
pub struct Envelope {
    /// The side of a column, mm.
    side: f64,
    /// The first column along x and z, counted from the origin.
    first: [i32; 2],
    /// How many there are along x and z.
    count: [usize; 2],
    /// For each column, x running fastest, the disjoint intervals of y, in order.
    columns: Vec<Vec<[f64; 2]>>,
    tyres: Vec<Tyre>,
}

/// The side of a column, mm: the volume of a wheel's envelope is then true to a few ten-thousandths (a test).
const SIDE: f64 = 8.0;

/// Columns added beyond what is needed where the field has to grow.
const SPARE: i32 = 4;

/// Newton's steps end this near, mm.
const NEAR: f64 = 1e-4;

/// More steps than this are taken only by a line that all but passes the tyre by.
const STEPS: u32 = 12;

/// One mm³ is so many litres.
const LITRES: f64 = 1e-6;

impl Default for Envelope {
    fn default() -> Envelope {
        Envelope { side: SIDE, first: [0; 2], count: [0; 2], columns: Vec::new(), tyres: Vec::new() }
    }
}

impl Envelope {
    /// One whose columns have this side, mm.
    pub fn with_columns(side: f64) -> Envelope {
        Envelope { side, ..Envelope::default() }
    }

    /// The tyres that it is the union of.
    pub fn tyres(&self) -> &[Tyre] {
        &self.tyres
    }

    /// Takes in a tyre.
    pub fn add(&mut self, tyre: &Tyre) {
        let range = [Vec3::x(), Vec3::z()].map(|d| {
            let cell = |at: f64| (at / self.side).floor() as i32;
            [cell(-tyre.support(-d)), cell(tyre.support(d)) + 1]
        });
        self.cover(range);
        let [[from_x, to_x], [from_z, to_z]] = range;
        let middle = |cell: i32| (f64::from(cell) + 0.5) * self.side;
        for k in from_z..to_z {
            let row = (k - self.first[1]) as usize * self.count[0];
            for i in from_x..to_x {
                let column = &mut self.columns[row + (i - self.first[0]) as usize];
                take(column, tyre, Vec3::new(middle(i), 0.0, middle(k)) - tyre.centre);
            }
        }
        self.tyres.push(*tyre);
    }

    /// Grows so that columns of these ranges are there.
    fn cover(&mut self, range: [[i32; 2]; 2]) {
        let now = [0, 1].map(|i| [self.first[i], self.first[i] + self.count[i] as i32]);
        let empty = self.columns.is_empty();
        if !empty && [0, 1].iter().all(|&i| now[i][0] <= range[i][0] && range[i][1] <= now[i][1]) {
            return;
        }
        let wide = range.map(|[from, to]| [from - SPARE, to + SPARE]);
        let new = [0, 1].map(|i| if empty { wide[i] } else { [now[i][0].min(wide[i][0]), now[i][1].max(wide[i][1])] });
        let count = new.map(|[from, to]| (to - from) as usize);
        let mut columns = vec![Vec::new(); count[0] * count[1]];
        for (at, column) in std::mem::take(&mut self.columns).into_iter().enumerate() {
            let [i, k] = [at % self.count[0], at / self.count[0]];
            let [di, dk] = [0, 1].map(|axis| (self.first[axis] - new[axis][0]) as usize);
            columns[(k + dk) * count[0] + i + di] = column;
        }
        (self.first, self.count, self.columns) = (new.map(|[from, _]| from), count, columns);
    }

    /// The litres of the union that lie inboard of a plane y = `side`, mm.
    pub fn litres(&self, side: f64) -> f64 {
        let inboard = |[from, to]: &[f64; 2]| (to.min(side) - from).max(0.0);
        self.columns.iter().flatten().map(inboard).sum::<f64>() * self.side.powi(2) * LITRES
    }

    /// The depth of the arch: the least y of each column.
    pub fn depth(&self) -> Depth {
        let least = self.columns.iter().map(|column| column.first().map(|interval| interval[0])).collect();
        let start = self.first.map(|first| (f64::from(first) + 0.5) * self.side);
        Depth { start, side: self.side, count: self.count, least }
    }
}

/// The least y that a tyre reaches, over x and z. Lengths mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Depth {
    /// The first column's x and z.
    pub start: [f64; 2],
    /// From column to column.
    pub side: f64,
    /// How many there are along x and z.
    pub count: [usize; 2],
    /// For each, x running fastest; `None` where no tyre comes.
    pub least: Vec<Option<f64>>,
}

impl Depth {
    /// The lines along which the least y is a level, mm, in the plane of x and z at that y: what is deeper lies on their left, seen with x to the
    /// right and z up. A line ends where no tyre comes any more.
    pub fn contour(&self, level: f64) -> Vec<Border<Vec3>> {
        let y = |[i, k]: [usize; 2]| self.least[k * self.count[0] + i];
        let crossing = |edge: Edge| {
            let mut other = edge.node;
            other[edge.axis] += 1;
            let [from, to] = [edge.node, other].map(|node| y(node).unwrap_or(level));
            let mut place = edge.node.map(|i| i as f64);
            place[edge.axis] += (level - from) / (to - from);
            Vec3::new(self.start[0] + place[0] * self.side, level, self.start[1] + place[1] * self.side)
        };
        borders(self.count, |node| y(node).map(|y| y < level), crossing)
    }
}

/// Adds a tyre's interval to a column whose line passes y = 0 at `from`, seen from the wheel centre.
fn take(column: &mut Vec<[f64; 2]>, tyre: &Tyre, from: Vec3) {
    let Some(bound) = bound(tyre, from) else { return };
    if column.iter().any(|[a, b]| *a <= bound[0] && bound[1] <= *b) {
        return;
    }
    let Some(near) = end(tyre, from, bound[0], 1.0) else { return };
    let Some(away) = end(tyre, from, bound[1], -1.0) else { return };
    if near < away {
        unite(column, [near, away]);
    }
}

/// The interval of the line in the cylinder with sharp edges that holds the tyre. At t = t₀ the line passes the wheel plane at m from the centre, and
/// with τ = t − t₀
/// ```text
/// h = n_y τ,   ρ² = m·m + 2 m_y τ + (1 − n_y²) τ²
/// ```
fn bound(tyre: &Tyre, from: Vec3) -> Option<[f64; 2]> {
    let n = tyre.spin;
    let far = tyre.radius + tyre.half;
    let wide = tyre.half / n.y.abs();
    if wide >= far {
        // A line along the wheel plane: the ball round the whole tyre serves.
        return Some([-from.y - far, -from.y + far]);
    }
    let to_plane = -n.dot(&from) / n.y;
    let m = Vec3::new(from.x, from.y + to_plane, from.z);
    let (a, b, c) = (n.x * n.x + n.z * n.z, m.y, m.norm_squared() - tyre.radius.powi(2));
    let root = (b * b - a * c).sqrt();
    // The two roots without a difference of near numbers; of a wheel straight ahead they are far away. Without a root these are not numbers.
    let q = -(b + root.copysign(b));
    let [one, other] =
        if a > 0.0 { [q / a, c / q] } else { [-wide, wide].map(|end| if c < 0.0 { end } else { f64::NAN }) };
    if one.is_nan() || other.is_nan() {
        return None;
    }
    let [near, away] = [one.min(other).max(-wide), one.max(other).min(wide)];
    (near < away).then_some([to_plane + near, to_plane + away])
}

/// Where a line enters the tyre, going from `t`, outside of it or on its flank, along `way` (1 or −1).
fn end(tyre: &Tyre, from: Vec3, mut t: f64, way: f64) -> Option<f64> {
    let (flank, tread, n) = (tyre.flank(), tyre.tread(), tyre.spin);
    for _ in 0..STEPS {
        let at = Vec3::new(from.x, from.y + t, from.z);
        let h = n.dot(&at);
        let across = at.norm_squared() - h * h;
        let e = (h.abs() - tread).max(0.0);
        if across <= flank * flank && e <= tyre.shoulder + NEAR {
            return Some(t);
        }
        let rho = across.max(f64::MIN_POSITIVE).sqrt();
        let g = (rho - flank).max(0.0);
        let distance = g.hypot(e);
        let f = distance - tyre.shoulder;
        if f <= NEAR {
            return Some(t);
        }
        let slope = (g * (at.y - h * n.y) / rho + e * n.y * h.signum()) / distance;
        if slope * way >= 0.0 {
            return None;
        }
        t -= f / slope;
    }
    Some(t)
}

/// Adds an interval to disjoint ones in order.
fn unite(column: &mut Vec<[f64; 2]>, [from, to]: [f64; 2]) {
    let first = column.iter().position(|[_, end]| *end >= from).unwrap_or(column.len());
    let behind = column.iter().position(|[start, _]| *start > to).unwrap_or(column.len());
    if first == behind {
        column.insert(first, [from, to]);
    } else {
        let united = [column[first][0].min(from), column[behind - 1][1].max(to)];
        column.splice(first..behind, [united]);
    }
}
