//! A number with its unit, as people type it: `20,5 mm`, `2.05 cm`, `1.2 in`, `0.5°`, `30′`.

use super::number::{Units, parse};
use kernel::Unit;

/// What a typed number is a number of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kind {
    /// Its unit.
    pub unit: Unit,
    /// It is toe, which can be shown of both wheels together.
    pub toe: bool,
}

/// Units that can be typed, in small letters and without spaces, and how many of the kernel's each is.
const NAMES: [(Unit, &str, f64); 41] = [
    (Unit::Millimetre, "mm", 1.0),
    (Unit::Millimetre, "cm", 10.0),
    (Unit::Millimetre, "m", 1000.0),
    (Unit::Millimetre, "in", 25.4),
    (Unit::Millimetre, "inch", 25.4),
    (Unit::Millimetre, "inches", 25.4),
    (Unit::Millimetre, "\"", 25.4),
    (Unit::MillimetrePerRadian, "mm/rad", 1.0),
    (Unit::MillimetrePerRadian, "in/rad", 25.4),
    (Unit::Degree, "°", 1.0),
    (Unit::Degree, "deg", 1.0),
    (Unit::Degree, "degree", 1.0),
    (Unit::Degree, "degrees", 1.0),
    (Unit::Degree, "'", 1.0 / 60.0),
    (Unit::Degree, "min", 1.0 / 60.0),
    (Unit::Degree, "minute", 1.0 / 60.0),
    (Unit::Degree, "minutes", 1.0 / 60.0),
    (Unit::Degree, "°total", 0.5),
    (Unit::Degree, "'total", 0.5 / 60.0),
    (Unit::DegreePerMillimetre, "°/10mm", 0.1),
    (Unit::DegreePerMillimetre, "deg/10mm", 0.1),
    (Unit::DegreePerMillimetre, "°/mm", 1.0),
    (Unit::DegreePerMillimetre, "'/10mm", 1.0 / 600.0),
    (Unit::Percent, "%", 1.0),
    (Unit::Metre, "m", 1.0),
    (Unit::Metre, "cm", 0.01),
    (Unit::NewtonMetre, "n·m", 1.0),
    (Unit::NewtonMetre, "nm", 1.0),
    (Unit::NewtonPerMillimetre, "n/mm", 1.0),
    (Unit::NewtonMetrePerDegree, "n·m/°", 1.0),
    (Unit::NewtonMetrePerDegree, "nm/°", 1.0),
    (Unit::Hertz, "hz", 1.0),
    (Unit::Gravity, "g", 1.0),
    (Unit::DegreePerKilonewton, "°/kn", 1.0),
    (Unit::DegreePerKilonewton, "deg/kn", 1.0),
    (Unit::DegreePerKilonewton, "'/kn", 1.0 / 60.0),
    (Unit::MillimetrePerKilonewton, "mm/kn", 1.0),
    (Unit::MillimetrePerKilonewton, "in/kn", 25.4),
    (Unit::DegreePerHundredNewtonMetres, "°/100n·m", 1.0),
    (Unit::DegreePerHundredNewtonMetres, "deg/100nm", 1.0),
    (Unit::DegreePerHundredNewtonMetres, "'/100n·m", 1.0 / 60.0),
];

/// What links call the units.
pub const CODES: [(Unit, &str); 15] = [
    (Unit::Millimetre, "mm"),
    (Unit::Degree, "deg"),
    (Unit::MillimetrePerRadian, "mm-rad"),
    (Unit::DegreePerMillimetre, "deg-mm"),
    (Unit::One, "one"),
    (Unit::Percent, "percent"),
    (Unit::Metre, "m"),
    (Unit::NewtonMetre, "nm"),
    (Unit::NewtonPerMillimetre, "n-mm"),
    (Unit::NewtonMetrePerDegree, "nm-deg"),
    (Unit::Hertz, "hz"),
    (Unit::Gravity, "g"),
    (Unit::DegreePerKilonewton, "deg-kn"),
    (Unit::MillimetrePerKilonewton, "mm-kn"),
    (Unit::DegreePerHundredNewtonMetres, "deg-100nm"),
];

impl Kind {
    /// A plain number.
    pub const PLAIN: Kind = Kind::of(Unit::One);

    /// A number of a unit.
    pub const fn of(unit: Unit) -> Kind {
        Kind { unit, toe: false }
    }

    /// What a number without a unit is taken to be in: what is shown. Empty for a plain number.
    pub fn name(self, units: Units) -> &'static str {
        match (self.unit, units.minutes, units.total_toe && self.toe) {
            (Unit::Millimetre, ..) => units.length_name(),
            (Unit::Degree, false, false) => "°",
            (Unit::Degree, false, true) => "° total",
            (Unit::Degree, true, false) => "′",
            (Unit::Degree, true, true) => "′ total",
            (Unit::MillimetrePerRadian, ..) if units.inches => "in/rad",
            (Unit::MillimetrePerRadian, ..) => "mm/rad",
            (Unit::DegreePerMillimetre, true, _) => "′/10 mm",
            (Unit::DegreePerMillimetre, ..) => "°/10 mm",
            (Unit::One, ..) => "",
            (Unit::Percent, ..) => "%",
            (Unit::Metre, ..) => "m",
            (Unit::NewtonMetre, ..) => "N·m",
            (Unit::NewtonPerMillimetre, ..) => "N/mm",
            (Unit::NewtonMetrePerDegree, ..) => "N·m/°",
            (Unit::Hertz, ..) => "Hz",
            (Unit::Gravity, ..) => "g",
            (Unit::DegreePerKilonewton, true, _) => "′/kN",
            (Unit::DegreePerKilonewton, ..) => "°/kN",
            (Unit::MillimetrePerKilonewton, ..) if units.inches => "in/kN",
            (Unit::MillimetrePerKilonewton, ..) => "mm/kN",
            (Unit::DegreePerHundredNewtonMetres, true, _) => "′/100 N·m",
            (Unit::DegreePerHundredNewtonMetres, ..) => "°/100 N·m",
        }
    }

    /// The value of a typed text in the kernel's unit; `None` for what is no number, or has a unit of something else.
    pub fn read(self, text: &str, units: Units) -> Option<f64> {
        let (number, unit) = split(text);
        let unit = if unit.is_empty() { plain(self.name(units)) } else { unit };
        // Both wheels' angle is told of toe alone.
        let fits = |name: &str| name == unit && (self.toe || !name.ends_with("total"));
        let factor = NAMES.iter().find(|(of, name, _)| *of == self.unit && fits(name)).map(|(.., factor)| *factor);
        Some(parse(number)? * factor.or(unit.is_empty().then_some(1.0))?)
    }

    /// The text with the unit in which it was typed behind it, so that it stays the same number whatever is shown later.
    pub fn with_unit(self, text: &str, units: Units) -> String {
        let (name, (number, unit)) = (self.name(units), split(text));
        if name.is_empty() || !unit.is_empty() || parse(number).is_none() {
            return text.into();
        }
        format!("{} {name}", text.trim())
    }
}

/// A number and what stands behind it, in small letters and without spaces.
fn split(text: &str) -> (&str, String) {
    let at = text.find(|c: char| !(c.is_ascii_digit() || c.is_whitespace() || "+-−.,".contains(c)));
    let (number, unit) = text.split_at(at.unwrap_or(text.len()));
    (number, plain(unit))
}

/// A unit's name with one sign for feet and minutes, one for inches, in small letters and without spaces and no-break joins.
fn plain(unit: &str) -> String {
    let letter = |c: char| match c {
        '′' | '’' => '\'',
        '″' | '”' => '"',
        '*' | '⋅' => '·',
        c => c.to_ascii_lowercase(),
    };
    unit.chars().filter(|c| !c.is_whitespace() && *c != '\u{2060}').map(letter).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_may_stand_behind_a_number() {
        let metric = Units::default();
        for (unit, text, value) in [
            (Unit::Millimetre, "20,5 mm", 20.5),
            (Unit::Millimetre, " −2.05cm", -20.5),
            (Unit::Millimetre, "1.2 in", 30.48),
            (Unit::Millimetre, "2″", 50.8),
            (Unit::Millimetre, "20", 20.0),
            (Unit::Degree, "-0,5°", -0.5),
            (Unit::Degree, "30′", 0.5),
            (Unit::Degree, "30 Minutes", 0.5),
            (Unit::DegreePerMillimetre, "0.04", 0.004),
            (Unit::DegreePerMillimetre, "0.04 ° / 10 mm", 0.004),
            (Unit::NewtonMetre, "54 Nm", 54.0),
            (Unit::NewtonMetre, "54 N·m", 54.0),
            (Unit::NewtonMetrePerDegree, "2 N·m/\u{2060}°", 2.0),
            (Unit::DegreePerKilonewton, "0.05 °/kN", 0.05),
            (Unit::DegreePerHundredNewtonMetres, "0,1 °/100 N·m", 0.1),
            (Unit::MillimetrePerKilonewton, "1.2 mm/kN", 1.2),
            (Unit::One, "6.7", 6.7),
        ] {
            let read = Kind::of(unit).read(text, metric).unwrap_or(f64::NAN);
            assert!((read - value).abs() < 1e-12, "{text}: {read}");
        }
        for (unit, text) in [
            (Unit::Millimetre, "20 °"),
            (Unit::Millimetre, "mm"),
            (Unit::Millimetre, "about 20"),
            (Unit::Millimetre, "20 mm or so"),
            (Unit::Millimetre, "1 2"),
            (Unit::Degree, "3 mm"),
            (Unit::One, "3 mm"),
        ] {
            assert_eq!(Kind::of(unit).read(text, metric), None, "{text}");
        }
    }

    #[test]
    fn a_number_keeps_the_unit_it_was_typed_in() {
        let inches = Units { inches: true, minutes: true, total_toe: true };
        let kind = Kind::of(Unit::Millimetre);
        assert_eq!(kind.with_unit(" 15,2", Units::default()), "15,2 mm");
        assert_eq!(kind.with_unit("0.6", inches), "0.6 in");
        assert_eq!(kind.with_unit("2 cm", inches), "2 cm");
        assert_eq!(kind.with_unit("about two", inches), "about two");
        assert_eq!(Kind::PLAIN.with_unit("6.7", inches), "6.7");
        let toe = Kind { unit: Unit::Degree, toe: true };
        assert_eq!(toe.with_unit("12", inches), "12 ′ total");
        assert_eq!(toe.read("12 ′ total", Units::default()), Some(0.1));
        assert_eq!(toe.read("12", inches), Some(0.1));
    }
}
