//! Numbers as people write and read them: decimal point or comma, hyphen or true minus.

use kernel::{Reading, Unit};

/// Reads a number typed by a person: `-3.5`, `−3,5`, ` +12 `. `None` for anything else, infinities and NaN included.
pub fn parse(text: &str) -> Option<f64> {
    let plain = text.trim().replace('\u{2212}', "-").replace(',', ".");
    let digits = plain.bytes().all(|b| b.is_ascii_digit() || b"+-.eE".contains(&b));
    plain.parse::<f64>().ok().filter(|value| digits && value.is_finite())
}

/// A value with a fixed number of decimals, a true minus sign, and no minus on what rounds to zero.
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let zero = text.bytes().all(|b| b"-0.".contains(&b));
    if zero { text.replace('-', "") } else { text.replace('-', "\u{2212}") }
}

/// The same with a plus sign on what is above zero.
pub fn signed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    let above = value > 0.0 && text.bytes().any(|b| b.is_ascii_digit() && b != b'0');
    if above { format!("+{text}") } else { text }
}

/// A value as short as it can be without losing the sixth decimal: for links and number boxes.
pub fn plain(value: f64) -> String {
    let text = format!("{:.6}", value);
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".into() } else { short.into() }
}

/// What the reader wants lengths, angles and toe in. Links carry it; layouts and sentences stay in mm and degrees.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Units {
    /// Inches in place of mm.
    pub inches: bool,
    /// Minutes of arc in place of degrees.
    pub minutes: bool,
    /// Toe of both wheels together in place of this one's.
    pub total_toe: bool,
}

/// An inch, mm.
const INCH: f64 = 25.4;

/// A number with so many decimals, but no more than so many digits: further ones are meaningless and do not fit. Those before the point
/// that are too many are 0.
fn at_most(digits: i32, value: f64, decimals: usize) -> String {
    // Digits before the point, once rounded.
    let before = (value.abs() + 0.5 * 10.0_f64.powi(-(decimals as i32))).max(1.0).log10().floor() as i32 + 1;
    let spare = digits - before;
    if spare >= 0 {
        return fixed(value, decimals.min(spare as usize));
    }
    let unit = 10.0_f64.powi(-spare);
    fixed((value / unit).round() * unit, 0)
}

impl Units {
    /// What lengths are in.
    pub fn length_name(self) -> &'static str {
        if self.inches { "in" } else { "mm" }
    }

    /// mm in the reader's unit, and the decimals that show a tenth of a mm.
    fn lengths(self) -> (usize, f64) {
        if self.inches { (3, 1.0 / INCH) } else { (1, 1.0) }
    }

    /// A length of so many mm.
    pub fn length(self, mm: f64) -> String {
        let (decimals, factor) = self.lengths();
        fixed(mm * factor, decimals)
    }

    /// The same with a plus sign on what is above zero.
    pub fn signed_length(self, mm: f64) -> String {
        let (decimals, factor) = self.lengths();
        signed(mm * factor, decimals)
    }

    /// What a key steps a number of what is shown by: about a mm.
    pub fn step(self) -> f64 {
        if self.inches { 0.05 } else { 1.0 }
    }

    /// The mm of a length typed in the reader's unit.
    pub fn typed_length(self, value: f64) -> f64 {
        value / self.lengths().1
    }

    /// An angle of so many degrees, with its sign.
    pub fn angle(self, degrees: f64, decimals: usize) -> String {
        if self.minutes { fixed(60.0 * degrees, 0) + "′" } else { fixed(degrees, decimals) + "°" }
    }

    /// How a reading is shown: decimals, factor, sign behind the number.
    pub fn shown(self, reading: &Reading) -> (usize, f64, &'static str) {
        let wheels = if self.total_toe && reading.column == "toe_deg" { 2.0 } else { 1.0 };
        match reading.unit {
            Unit::Millimetre | Unit::MillimetrePerRadian => {
                let (decimals, factor) = self.lengths();
                (decimals, factor, "")
            }
            Unit::Degree if self.minutes => (1, 60.0 * wheels, "′"),
            Unit::Degree => (2, wheels, "°"),
            // Per mm the digits would all be zeros; the trade quotes 10 mm.
            Unit::DegreePerMillimetre if self.minutes => (2, 600.0, ""),
            Unit::DegreePerMillimetre => (3, 10.0, ""),
            Unit::One => (3, 1.0, ""),
            Unit::Percent | Unit::NewtonMetre | Unit::NewtonPerMillimetre => (1, 1.0, ""),
            Unit::Metre | Unit::Hertz | Unit::Gravity => (2, 1.0, ""),
            Unit::NewtonMetrePerDegree => (0, 1.0, ""),
            Unit::DegreePerKilonewton | Unit::DegreePerHundredNewtonMetres if self.minutes => (2, 60.0, ""),
            Unit::DegreePerKilonewton | Unit::DegreePerHundredNewtonMetres => (3, 1.0, ""),
            Unit::MillimetrePerKilonewton if self.inches => (4, 1.0 / INCH, ""),
            Unit::MillimetrePerKilonewton => (2, 1.0, ""),
        }
    }

    /// What stands behind a reading's name where its unit is neither a length nor a plain angle.
    pub fn behind(self, reading: &Reading) -> &'static str {
        match reading.unit {
            Unit::MillimetrePerRadian if self.inches => "in/rad",
            Unit::MillimetrePerRadian => "mm/rad",
            Unit::DegreePerMillimetre if self.minutes => "′/10 mm",
            Unit::DegreePerMillimetre => "°/10 mm",
            Unit::Degree if self.total_toe && reading.column == "toe_deg" => "total",
            Unit::Millimetre | Unit::Degree | Unit::One => "",
            Unit::Percent => "%",
            Unit::Metre => "m",
            Unit::NewtonMetre => "N·m",
            Unit::NewtonPerMillimetre => "N/mm",
            Unit::NewtonMetrePerDegree => "N·m/°",
            Unit::Hertz => "Hz",
            Unit::Gravity => "g",
            Unit::DegreePerKilonewton if self.minutes => "′/kN",
            Unit::DegreePerKilonewton => "°/kN",
            Unit::DegreePerHundredNewtonMetres if self.minutes => "′/100 N·m",
            Unit::DegreePerHundredNewtonMetres => "°/100 N·m",
            Unit::MillimetrePerKilonewton if self.inches => "in/kN",
            Unit::MillimetrePerKilonewton => "mm/kN",
        }
    }

    /// A reading's value as the page shows it; a dash where there is none.
    pub fn reading(self, value: Option<f64>, reading: &Reading) -> String {
        let (decimals, factor, sign) = self.shown(reading);
        let most = if reading.unit == Unit::One { 4 } else { 5 };
        value
            .filter(|value| value.is_finite())
            .map_or("–".into(), |value| at_most(most, value * factor, decimals) + sign)
    }

    /// How far away something is that may be very far, with its unit: from 10 m on in m (whole inches).
    pub fn distance(self, mm: f64) -> String {
        match (mm.abs() >= 10_000.0, self.inches) {
            (false, _) => format!("{} {}", self.length(mm), self.length_name()),
            (true, false) => fixed(mm / 1000.0, 1) + " m",
            (true, true) => fixed(mm * self.lengths().1, 0) + " in",
        }
    }

    /// The same with its unit, as a sentence has it.
    pub fn with_unit(self, value: Option<f64>, reading: &Reading) -> String {
        let unit = match self.behind(reading) {
            "" if reading.unit == Unit::Millimetre => self.length_name(),
            behind => behind,
        };
        format!("{} {unit}", self.reading(value, reading)).trim_end().into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn people_write_numbers_in_many_ways() {
        for (text, value) in [("-3.5", -3.5), ("−3,5", -3.5), (" +12 ", 12.0), ("1e2", 100.0), (".5", 0.5)] {
            assert_eq!(parse(text), Some(value), "{text}");
        }
        for text in ["", "x", "1.2.3", "inf", "nan", "1e999", "1 2", "--1"] {
            assert_eq!(parse(text), None, "{text}");
        }
    }

    #[test]
    fn nothing_shows_a_minus_zero() {
        assert_eq!(fixed(-0.04, 1), "0.0");
        assert_eq!(fixed(-0.06, 1), "\u{2212}0.1");
        assert_eq!(signed(0.04, 1), "0.0");
        assert_eq!(signed(12.0, 1), "+12.0");
        assert_eq!(plain(-0.0000001), "0");
        assert_eq!(plain(670.0), "670");
        assert_eq!(plain(1.25), "1.25");
    }

    #[test]
    fn readers_choose_their_units() {
        let named = |column| Reading::named(column).expect("a reading");
        let (metric, other) = (Units::default(), Units { inches: true, minutes: true, total_toe: true });
        for (column, value, here, there) in [
            ("scrub_radius_mm", -25.4, "−25.4", "−1.000"),
            ("caster_deg", 4.5, "4.50°", "270.0′"),
            ("toe_deg", 0.1, "0.10°", "12.0′"),
            ("bump_steer_deg_per_mm", 0.001, "0.010", "0.60"),
            ("motion_ratio", 0.5, "0.500", "0.500"),
            ("toe_side_force_deg_per_kn", 0.05, "0.050", "3.00"),
            ("toe_aligning_moment_deg_per_100_nm", -0.1, "−0.100", "−6.00"),
            ("wheel_centre_lengthwise_mm_per_kn", 2.54, "2.54", "0.1000"),
        ] {
            let shown = [metric, other].map(|units| units.reading(Some(value), named(column)));
            assert_eq!(shown, [here, there], "{column}");
        }
        assert_eq!(metric.reading(Some(f64::NAN), named("caster_deg")), "–");
        for (column, value, shown) in [
            ("side_swing_arm_mm", 1530.24, "1530.2"),
            ("side_swing_arm_mm", -9_999.96, "−10000"),
            ("side_swing_arm_mm", 37_740.7, "37741"),
            ("side_swing_arm_mm", 237_745.5, "237750"),
            ("motion_ratio", 15.8513, "15.85"),
            ("motion_ratio", 0.99996, "1.000"),
        ] {
            assert_eq!(metric.reading(Some(value), named(column)), shown, "{column} {value}");
        }
        assert_eq!(metric.distance(37_740.5), "37.7 m");
        assert_eq!(metric.distance(-912.34), "−912.3 mm");
        assert_eq!(other.typed_length(1.0), 25.4);
    }
}
