//! The least value of a function on an interval.

/// The golden section, (√5 − 1)/2.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// Steps that leave 1.4e-6 of the interval: a thousandth of a millimetre of a part of 0.7 m, and far less of a distance, which is level at its least.
const STEPS: usize = 28;

/// The least value of a function that has one valley on [a, b], by golden section.
pub fn in_valley(f: impl Fn(f64) -> f64, [mut a, mut b]: [f64; 2]) -> f64 {
    let ends = f(a).min(f(b));
    let (mut c, mut d) = (b - GOLDEN * (b - a), a + GOLDEN * (b - a));
    let (mut at_c, mut at_d) = (f(c), f(d));
    for _ in 0..STEPS {
        if at_c < at_d {
            (b, d, at_d) = (d, c, at_c);
            c = b - GOLDEN * (b - a);
            at_c = f(c);
        } else {
            (a, c, at_c) = (c, d, at_d);
            d = a + GOLDEN * (b - a);
            at_d = f(d);
        }
    }
    ends.min(at_c).min(at_d)
}

/// The least value of a function whose valleys on [a, b] are wider than a part of it in `parts`.
pub fn in_valleys(f: impl Fn(f64) -> f64, [a, b]: [f64; 2], parts: usize) -> f64 {
    let at = |i: usize| a + (b - a) * i as f64 / parts as f64;
    let values: Vec<f64> = (0..=parts).map(|i| f(at(i))).collect();
    let lowest = |i: &usize| {
        let i = *i;
        (i == 0 || values[i] <= values[i - 1]) && (i == parts || values[i] <= values[i + 1])
    };
    let valley = |i: usize| in_valley(&f, [at(i.saturating_sub(1)), at((i + 1).min(parts))]);
    (0..=parts).filter(lowest).map(valley).fold(f64::INFINITY, f64::min)
}
