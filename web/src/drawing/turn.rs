//! From where the pictorial view is seen: parallel projection at right angles to the paper (axonometry, ISO 5456-3).

use kernel::Vec3;

/// From where the car is seen, degrees. Ahead (0, 0), the car's left (−90, 0) and above (0, 90) are the three other views.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// About the upright: 0 from ahead, positive towards the middle of the car, where the wheel stands behind what guides it.
    pub azimuth: f64,
    /// Above the road, −90 to 90.
    pub elevation: f64,
}

/// How far a foreshortening may be off its standard's, for a turn that was typed here with so many digits.
const EXACT: f64 = 1e-9;

impl Turn {
    /// The three axes of the car foreshortened alike, each to √(2/3) of its length: elevation asin(1/√3).
    pub const ISOMETRIC: Turn = Turn { azimuth: 45.0, elevation: 35.264_389_682_754_654 };

    /// What lies across the car and upright to the same scale, what lies along it to half of that (the front view is the one of main importance):
    /// of a direction to the eye v an axis keeps √(1 − v²), and (1/4, 1, 1) of one k² with 1 + 1 + 1 − |v|² = 2 is k² = 8/9, so v = (√7, 1, 1)/3.
    pub const DIMETRIC: Turn = Turn { azimuth: 20.704_811_054_635_43, elevation: 19.471_220_634_490_69 };

    /// To the right and up on paper, and towards the eye: unit vectors of the car.
    pub fn axes(self) -> [Vec3; 3] {
        let ((sin_a, cos_a), (sin_e, cos_e)) =
            (self.azimuth.to_radians().sin_cos(), self.elevation.to_radians().sin_cos());
        let towards = Vec3::new(cos_e * cos_a, -cos_e * sin_a, sin_e);
        let right = Vec3::new(sin_a, cos_a, 0.0);
        [right, towards.cross(&right), towards]
    }

    /// What is left on paper of a length along x, y and z: 0 to 1.
    pub fn foreshortening(self) -> [f64; 3] {
        let [right, up, _] = self.axes();
        std::array::from_fn(|i| right[i].hypot(up[i]))
    }

    /// Turned by so many degrees; no farther than to straight above or below.
    pub fn by(self, azimuth: f64, elevation: f64) -> Turn {
        let azimuth = (self.azimuth + azimuth + 180.0).rem_euclid(360.0) - 180.0;
        Turn { azimuth, elevation: (self.elevation + elevation).clamp(-90.0, 90.0) }
    }

    /// The same from the other side of the wheel.
    pub fn from_the_other_side(self) -> Turn {
        Turn { azimuth: -self.azimuth, ..self }
    }

    /// What the standard calls it.
    pub fn name(self) -> &'static str {
        let [x, y, z] = self.foreshortening();
        let alike = |a: f64, b: f64| (a - b).abs() < EXACT;
        match (alike(y, z), alike(x, z), alike(x, y)) {
            (true, true, _) => "isometric",
            (true, ..) if alike(2.0 * x, y) => "dimetric",
            (_, true, _) if alike(2.0 * y, x) => "dimetric",
            (_, _, true) if alike(2.0 * z, x) => "dimetric",
            _ => "parallel projection",
        }
    }

    /// From where, in words: “from ahead, inboard and above”.
    pub fn from(self) -> String {
        let [_, _, towards] = self.axes();
        let ways = [(towards.x, "ahead", "behind"), (-towards.y, "inboard", "outboard"), (towards.z, "above", "below")];
        // What is less than 3° off is not named.
        let told = |(part, one, other): &(f64, &'static str, &'static str)| {
            (part.abs() > 0.05).then_some(if *part > 0.0 { *one } else { *other })
        };
        let words: Vec<&str> = ways.iter().filter_map(told).collect();
        match &words[..] {
            [head @ .., last] if !head.is_empty() => format!("from {} and {last}", head.join(", ")),
            _ => format!("from {}", words.concat()),
        }
    }
}
