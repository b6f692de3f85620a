//! Plane geometry: convex hulls, the part of a line inside an outline, crossings.

/// A point of the plane.
pub type P = [f64; 2];

fn cross(o: P, a: P, b: P) -> f64 {
    (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])
}

/// What may be a corner of the hull: not what lies inside the octagon of those farthest right, down, left, up and between (the step ahead of
/// a hull after Akl and Toussaint, 1978). To sort is most of the work of a hull, and of a tyre's points most are not on its outline.
fn outer(points: Vec<P>) -> Vec<P> {
    if points.len() < MANY {
        return points;
    }
    let mut farthest = [(f64::NEG_INFINITY, [0.0; 2]); 8];
    for point in &points {
        let [x, y] = *point;
        for (best, along) in farthest.iter_mut().zip([x, x + y, y, y - x, -x, -x - y, -y, x - y]) {
            if along > best.0 {
                *best = (along, *point);
            }
        }
    }
    let octagon = farthest.map(|(_, corner)| corner);
    // A corner that is farthest two ways stands twice, with a side of no length, which has no inside.
    let sides: Vec<[P; 2]> = (0..8).map(|i| [octagon[i], octagon[(i + 1) % 8]]).filter(|[a, b]| a != b).collect();
    let inner = |point: &P| !sides.is_empty() && sides.iter().all(|[a, b]| cross(*a, *b, *point) > 0.0);
    points.into_iter().filter(|point| !inner(point)).collect()
}

/// Of fewer points it is not worth sorting out the inner ones.
const MANY: usize = 64;

/// The convex hull, in order round it (Andrew's monotone chain).
pub fn hull(points: Vec<P>) -> Vec<P> {
    let mut points = outer(points);
    points.sort_unstable_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let mut hull: Vec<P> = Vec::with_capacity(points.len());
    let chain = |hull: &mut Vec<P>, points: &mut dyn Iterator<Item = &P>| {
        let start = hull.len();
        for point in points {
            while hull.len() >= start + 2 && cross(hull[hull.len() - 2], hull[hull.len() - 1], *point) <= 0.0 {
                hull.pop();
            }
            hull.push(*point);
        }
        hull.pop();
    };
    chain(&mut hull, &mut points.iter());
    chain(&mut hull, &mut points.iter().rev());
    hull
}

/// The part of the line a–b inside a convex outline, as parameters from 0 to 1.
pub fn inside_part(outline: &[P], a: P, b: P) -> Option<(f64, f64)> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    let area: f64 = (0..outline.len()).map(|i| cross([0.0, 0.0], outline[i], outline[(i + 1) % outline.len()])).sum();
    for i in 0..outline.len() {
        let (p, q) = (outline[i], outline[(i + 1) % outline.len()]);
        let (at_a, at_b) = (cross(p, q, a) * area.signum(), cross(p, q, b) * area.signum());
        if at_a < 0.0 && at_b < 0.0 {
            return None;
        }
        let t = at_a / (at_a - at_b);
        if at_a < 0.0 {
            from = from.max(t);
        } else if at_b < 0.0 {
            to = to.min(t);
        }
    }
    (from < to && outline.len() > 2).then_some((from, to))
}

/// True if a point lies inside a convex outline.
pub fn inside(outline: &[P], at: P) -> bool {
    inside_part(outline, at, [at[0] + 1e-6, at[1]]).is_some()
}

/// True if two lines cross between their ends.
pub fn crossing([a, b]: [P; 2], [c, d]: [P; 2]) -> bool {
    cross(a, b, c) * cross(a, b, d) < 0.0 && cross(c, d, a) * cross(c, d, b) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By what a convex hull is: convex, of the points, and round all of them.
    #[test]
    fn a_hull_goes_round_all_points() {
        let round = |i: i32| (f64::from(i) * 0.37).sin_cos();
        let lattice: Vec<P> = (0..400).map(|i| [f64::from(i % 20), f64::from(i / 20)]).collect();
        let rings: Vec<P> =
            (0..400).map(|i| [300.0 * round(i).0 + f64::from(i % 7) * 20.0, 300.0 * round(i).1]).collect();
        let cloud: Vec<P> =
            (0..400).map(|i| [round(i * i).0 * 50.0, round(i * 3).1 * 20.0 + round(i * i).0 * 9.0]).collect();
        let few: Vec<P> = cloud[..20].to_vec();
        for points in [lattice, rings, cloud, few] {
            let hull = hull(points.clone());
            for i in 0..hull.len() {
                let (a, b, next) = (hull[i], hull[(i + 1) % hull.len()], hull[(i + 2) % hull.len()]);
                assert!(points.contains(&a) && cross(a, b, next) > 0.0, "{a:?} {b:?} {next:?}");
                assert!(points.iter().all(|point| cross(a, b, *point) > -1e-9), "{a:?} {b:?}");
            }
        }
        for (points, corners) in
            [(vec![[3.0, 4.0]; 100], 1), ((0..100).map(|i| [f64::from(i), 2.0 * f64::from(i)]).collect(), 2)]
        {
            assert_eq!(hull(points).len(), corners, "a point and a line have no inside");
        }
    }

    #[test]
    fn what_lies_inside_is_not_sorted() {
        let disc =
            (0..2500).map(|i| [f64::from(i % 50) - 25.0, f64::from(i / 50) - 25.0]).filter(|p| p[0].hypot(p[1]) < 24.0);
        let disc: Vec<P> = disc.collect();
        assert!(outer(disc.clone()).len() * 4 < disc.len());
    }
}
