//! Shapes on paper: bars with round ends, what is grown by a margin. What of it takes time stands in the kernel, which is compiled for speed.

pub use kernel::plane::{P, crossing, hull, inside, inside_part};

pub fn add(a: P, b: P) -> P {
    [a[0] + b[0], a[1] + b[1]]
}

pub fn sub(a: P, b: P) -> P {
    [a[0] - b[0], a[1] - b[1]]
}

pub fn scaled(a: P, k: f64) -> P {
    [a[0] * k, a[1] * k]
}

pub fn mix(a: P, b: P, t: f64) -> P {
    [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
}

pub fn length(a: P) -> f64 {
    a[0].hypot(a[1])
}

/// The unit vector along `a`; to the right where there is none.
pub fn unit(a: P) -> P {
    let length = length(a);
    if length > 1e-9 { [a[0] / length, a[1] / length] } else { [1.0, 0.0] }
}

/// A quarter turn.
pub fn across(a: P) -> P {
    [-a[1], a[0]]
}

/// A convex outline grown by a margin with round corners.
pub fn grown(outline: &[P], margin: f64) -> Vec<P> {
    let around = |p: &P| {
        (0..12)
            .map(|i| {
                let (sin, cos) = (f64::from(i) * std::f64::consts::TAU / 12.0).sin_cos();
                add(*p, [margin * cos, margin * sin])
            })
            .collect::<Vec<_>>()
    };
    hull(outline.iter().flat_map(around).collect())
}

/// A bar with round ends.
pub fn capsule(a: P, b: P, half: f64) -> Vec<P> {
    let along = unit(sub(b, a));
    let side = across(along);
    let end = |centre: P, sign: f64| {
        (0..=8).map(move |i| {
            let (sin, cos) = (f64::from(i) * std::f64::consts::PI / 8.0 - std::f64::consts::FRAC_PI_2).sin_cos();
            add(centre, add(scaled(along, sign * half * cos), scaled(side, sign * half * sin)))
        })
    };
    end(b, 1.0).chain(end(a, -1.0)).collect()
}
