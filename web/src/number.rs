//! Numbers as people write and read them: decimal point or comma, hyphen or true minus.

use kernel::Unit;

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

/// Decimals a reading of this unit is shown with, and the factor and sign that the page shows it in.
pub fn shown(unit: Unit) -> (usize, f64, &'static str) {
    match unit {
        Unit::Millimetre => (1, 1.0, ""),
        Unit::Degree => (2, 1.0, "°"),
        Unit::MillimetrePerRadian => (1, 1.0, ""),
        // Per mm the digits would all be zeros; the trade quotes 10 mm.
        Unit::DegreePerMillimetre => (3, 10.0, ""),
        Unit::One => (3, 1.0, ""),
    }
}

/// A reading's value as the page shows it; a dash where there is none.
pub fn reading(value: Option<f64>, unit: Unit) -> String {
    let (decimals, factor, sign) = shown(unit);
    match value {
        Some(value) if value.is_finite() => fixed(value * factor, decimals) + sign,
        _ => "–".into(),
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
        assert_eq!(reading(Some(f64::NAN), Unit::Degree), "–");
    }
}
