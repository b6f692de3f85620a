//! A curve in pieces: broken where it has no value, and where it runs through a pole.

/// Points of a curve.
pub type Points = Vec<(f64, f64)>;

/// The pieces of a curve; a swing arm has more than one where the wheel moves straight up. Between two points lies a pole if the sign
/// changes while the values grow towards the gap from both sides, for through zero they would shrink; `least` is the smallest change
/// that is any.
pub fn pieces(points: impl Iterator<Item = (f64, Option<f64>)>, least: f64) -> Vec<Points> {
    let points: Vec<_> = points.collect();
    let value = |at: Option<usize>| at.and_then(|at| points.get(at)?.1);
    let pole = |at: usize| {
        let (Some(a), Some(b)) = (value(Some(at)), value(Some(at + 1))) else { return false };
        let beside = [(value(at.checked_sub(1)), a), (value(Some(at + 2)), b)];
        let mut grows = beside.into_iter().filter_map(|(outer, inner)| Some(outer?.abs() < inner.abs())).peekable();
        a * b < 0.0 && (b - a).abs() > least && grows.peek().is_some() && grows.all(|grows| grows)
    };
    let mut pieces = vec![Points::new()];
    for (at, (x, y)) in points.iter().enumerate() {
        match (y, pieces.last_mut()) {
            (Some(y), Some(piece)) => piece.push((*x, *y)),
            _ => pieces.push(Points::new()),
        }
        if pole(at) {
            pieces.push(Points::new());
        }
    }
    pieces
}

/// More than so many times the middle one of its values a broken curve is not shown.
const USUAL: f64 = 2.0;

/// Least and greatest value to be shown of some curves; where one is broken, a pole does not set the scale.
pub fn range(curves: &[&Vec<Points>], now: Option<f64>) -> Option<(f64, f64)> {
    let values = || curves.iter().copied().flatten().flatten().map(|(_, y)| *y).chain(now);
    let (least, most) = (values().reduce(f64::min)?, values().reduce(f64::max)?);
    if curves.iter().all(|pieces| pieces.len() < 2) {
        return Some((least, most));
    }
    let mut sizes: Vec<f64> = values().map(f64::abs).collect();
    sizes.sort_unstable_by(f64::total_cmp);
    let limit = USUAL * sizes[sizes.len() / 2];
    Some((least.max(-limit), most.min(limit))).filter(|(least, most)| least <= most)
}

/// The points that a line through all of them needs: what is left out lies within `near`, up or down, of the line through what is left. The
/// abscissas grow. From each point that is left the line may go on in a sector, which every further point narrows to where it is still passed
/// near enough; the first one outside it needs the one before.
pub fn needed(points: &[(f64, f64)], near: f64) -> Points {
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return Points::new() };
    let open = (f64::NEG_INFINITY, f64::INFINITY);
    let (mut left, mut from, mut sector) = (vec![*first], *first, open);
    let slope = |from: (f64, f64), x: f64, y: f64| (y - from.1) / (x - from.0);
    for pair in points.windows(2) {
        let (x, y) = pair[1];
        if !(sector.0..=sector.1).contains(&slope(from, x, y)) {
            left.push(pair[0]);
            (from, sector) = (pair[0], open);
        }
        sector = (sector.0.max(slope(from, x, y - near)), sector.1.min(slope(from, x, y + near)));
    }
    if points.len() > 1 {
        left.push(*last);
    }
    left
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_needs_few_points_and_passes_near_all() {
        type Shape = fn(f64) -> f64;
        let shapes: [(Shape, usize); 5] = [
            (|x| 3.0 - 0.2 * x, 2),
            (|x| 0.01 * x * x, 14),
            (|x| 8.0 * (x / 7.0).sin(), 38),
            (|x| (x - 20.0).abs(), 3),
            (|x| if x < 20.0 { 0.0 } else { 9.0 }, 4),
        ];
        for (which, (shape, most)) in shapes.into_iter().enumerate() {
            let points: Points = (0..=40).map(|i| (f64::from(i), shape(f64::from(i)))).collect();
            let left = needed(&points, 0.05);
            assert!(left.len() <= most, "{which}: {}", left.len());
            assert_eq!((left.first(), left.last()), (points.first(), points.last()));
            for (x, y) in points {
                let after = left.iter().position(|(at, _)| *at >= x).expect("it reaches as far").max(1);
                let ((x0, y0), (x1, y1)) = (left[after - 1], left[after]);
                let passes = y0 + (y1 - y0) * (x - x0) / (x1 - x0);
                assert!((passes - y).abs() <= 0.05 + 1e-9, "{which}: {x} {passes} {y}");
            }
        }
        assert_eq!((needed(&[], 1.0).len(), needed(&[(1.0, 2.0)], 1.0).len()), (0, 1));
    }

    fn sampled(curve: impl Fn(f64) -> Option<f64>) -> Vec<Points> {
        pieces((-30..=30).map(|i| f64::from(i) * 2.0).map(|x| (x, curve(x))), 0.1)
    }

    #[test]
    fn a_pole_breaks_a_curve_and_a_zero_does_not() {
        for pole in [-57.3, -1.0, 0.1, 1.9, 40.5] {
            let curve = sampled(|x| Some(1000.0 / (x - pole)));
            assert_eq!(curve.len(), 2, "pole at {pole}");
            assert!(curve[0].iter().all(|(x, y)| *x < pole && *y < 0.0), "{pole}");
            assert!(curve[1].iter().all(|(x, y)| *x > pole && *y > 0.0), "{pole}");
            let (least, most) = range(&[&curve], None).expect("it has values");
            assert!(least < 0.0 && most > 0.0 && most - least < 800.0, "{pole}: {least} to {most}");
        }
        for zero in [-57.3, 0.0, 0.1, 40.5] {
            assert_eq!(sampled(|x| Some((x - zero).powi(3))).len(), 1, "zero at {zero}");
            assert_eq!(sampled(|x| Some(((x - zero) / 20.0).sin())).len(), 1, "zero at {zero}");
        }
        assert_eq!(sampled(|x| Some(1e-12 * (x * 77.0).sin())).len(), 1, "noise has no poles");
    }

    #[test]
    fn a_missing_value_breaks_a_curve() {
        let curve = sampled(|x| (x.abs() > 5.0).then(|| 1000.0 / x));
        let full: Vec<_> = curve.iter().filter(|piece| !piece.is_empty()).collect();
        assert_eq!(full.len(), 2);
        assert_eq!((full[0].last(), full[1].first()), (Some(&(-6.0, -1000.0 / 6.0)), Some(&(6.0, 1000.0 / 6.0))));
        assert_eq!(range(&[&sampled(|_| None)], None), None);
    }
}
