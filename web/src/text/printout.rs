//! Numbers as a printout of an alignment rig has them: degrees, degrees and minutes, toe in mm at a rim.
//!
//! Toe θ of one wheel, in mm at a rim of the diameter D, is how much nearer to the car's middle the rim's front edge is than its rear one:
//! ```text
//! D sin θ
//! ```

use super::number::{Units, fixed, parse, signed};
use super::typed::Kind;
use kernel::Unit;

/// What a number is written in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scale {
    /// Degrees with decimals.
    Degrees,
    /// Degrees and whole minutes.
    Minutes,
    /// mm at a rim of this diameter, mm.
    Rim(f64),
    /// A length in the reader's unit.
    Length(Units),
}

impl Scale {
    /// A value in degrees or mm as the sheet shows it.
    pub fn text(self, value: f64) -> String {
        match self {
            Scale::Degrees => fixed(value, 2) + "°",
            Scale::Minutes => minutes(value),
            Scale::Rim(diameter) => fixed(diameter * value.to_radians().sin(), 1),
            Scale::Length(units) => units.length(value),
        }
    }

    /// The same with a plus sign on what is above zero.
    pub fn signed(self, value: f64) -> String {
        match self {
            Scale::Degrees => signed(value, 2) + "°",
            Scale::Minutes if value > 0.0 && minutes(value) != minutes(0.0) => format!("+{}", minutes(value)),
            Scale::Minutes => minutes(value),
            Scale::Rim(diameter) => signed(diameter * value.to_radians().sin(), 1),
            Scale::Length(units) => units.signed_length(value),
        }
    }

    /// What stands behind such numbers, if they don't say it themselves.
    pub fn unit(self) -> &'static str {
        match self {
            Scale::Degrees | Scale::Minutes => "",
            Scale::Rim(_) => "mm",
            Scale::Length(units) => units.length_name(),
        }
    }

    /// The value of a typed text, degrees or mm: a plain number is in what is shown (of degrees and minutes: degrees), one with a unit in that.
    pub fn read(self, text: &str) -> Option<f64> {
        match self {
            Scale::Length(units) => Kind::of(Unit::Millimetre).read(text, units),
            Scale::Rim(diameter) => {
                let sine = Kind::of(Unit::Millimetre).read(text, Units::default()).map(|mm| mm / diameter);
                let angle = || parse(text).is_none().then(|| angle(text)).flatten();
                sine.filter(|sine| sine.abs() <= 1.0).map(|sine| sine.asin().to_degrees()).or_else(angle)
            }
            Scale::Degrees | Scale::Minutes => angle(text),
        }
    }
}

/// Degrees and whole minutes, with one sign for both.
fn minutes(degrees: f64) -> String {
    let all = (60.0 * degrees.abs()).round();
    let sign = if degrees < 0.0 && all > 0.0 { "\u{2212}" } else { "" };
    format!("{sign}{:.0}°{:02.0}′", (all / 60.0).floor(), all % 60.0)
}

/// An angle: `-1.25`, `-1,25°`, `−1°15′`, `15'`.
fn angle(text: &str) -> Option<f64> {
    let both = text.split_once('°').filter(|(_, minutes)| !minutes.trim().is_empty());
    let Some((whole, rest)) = both else { return Kind::of(Unit::Degree).read(text, Units::default()) };
    let rest = rest.trim().trim_end_matches(['\'', '′', '’']).trim();
    let (whole, part) = (parse(whole)?, parse(rest).filter(|part| (0.0..60.0).contains(part))?);
    let below = text.trim_start().starts_with(['-', '\u{2212}']);
    (whole.fract() == 0.0).then(|| whole + if below { -part } else { part } / 60.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn printouts_are_typed_as_they_stand() {
        for (text, degrees) in [
            ("-1,25", -1.25),
            ("−1°15′", -1.25),
            ("-0° 12'", -0.2),
            ("0°06.5'", 6.5 / 60.0),
            ("30′", 0.5),
            (" 3.5° ", 3.5),
        ] {
            for scale in [Scale::Degrees, Scale::Minutes] {
                let read = scale.read(text).expect(text);
                assert!((read - degrees).abs() < 1e-12, "{text}: {read}");
            }
        }
        for text in ["", "x", "1.5°10′", "1°75′", "1°-5′", "1°x", "2 mm", "--1", "1°5′3"] {
            assert_eq!(Scale::Minutes.read(text), None, "{text}");
        }
    }

    /// 400 mm · sin 0.2° = 1.396 mm, by hand.
    #[test]
    fn toe_is_told_at_the_rim() {
        let rim = Scale::Rim(400.0);
        assert_eq!((rim.text(0.2), rim.signed(0.2), rim.unit()), ("1.4".into(), "+1.4".into(), "mm"));
        for (text, degrees) in [("1,396 mm", 0.2), ("-1.396", -0.2), ("0.2°", 0.2), ("-0°12′", -0.2)] {
            assert!((rim.read(text).expect(text) - degrees).abs() < 1e-4, "{text}");
        }
        assert_eq!((rim.read("500"), rim.read("x")), (None, None));
    }

    #[test]
    fn what_is_shown_can_be_typed_again() {
        for (value, text, signed) in [
            (-1.25, "−1°15′", "−1°15′"),
            (0.2, "0°12′", "+0°12′"),
            (-0.004, "0°00′", "0°00′"),
            (0.9999, "1°00′", "+1°00′"),
            (-0.05, "−0°03′", "−0°03′"),
        ] {
            assert_eq!((Scale::Minutes.text(value), Scale::Minutes.signed(value)), (text.into(), signed.into()));
            let back = Scale::Minutes.read(text).expect(text);
            assert!((back - value).abs() <= 0.5 / 60.0 + 1e-12, "{text}: {back}");
        }
        let inches = Scale::Length(Units { inches: true, ..Units::default() });
        assert_eq!(
            (inches.text(25.4), inches.read("1"), inches.read("30 mm")),
            ("1.000".into(), Some(25.4), Some(30.0))
        );
    }
}
