//! A tyre's size by the standard designation.
//!
//! `225/45 R17` is a nominal section width of 225 mm, a section height of 45 % of it, on a rim of nominal diameter 17 inches (designation and design
//! size: ISO 4000-1 and the ETRTO standards manual). So the design outer diameter is rim · 25.4 + 2 · width · aspect / 100. A new tyre may differ
//! by some per cent, a worn one is smaller by its tread.

use std::fmt;

/// Millimetres of an inch.
const INCH: f64 = 25.4;

/// Loaded radius over free radius; invented, a usual passenger-car tyre's order of size at its pressure and load.
pub const LOADED: f64 = 0.96;

/// Nominal section widths there are, mm; aspect ratios, %; rim diameters, inches. Beyond them a digit is wrong or missing.
const WIDTHS: [f64; 2] = [80.0, 500.0];
const ASPECTS: [f64; 2] = [15.0, 100.0];
const RIMS: [f64; 2] = [8.0, 30.0];

/// A tyre's size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TyreSize {
    /// Nominal section width, mm.
    pub width: f64,
    /// Section height over section width, %.
    pub aspect: f64,
    /// Nominal rim diameter, inches.
    pub rim: f64,
}

impl TyreSize {
    /// Reads a designation as it stands on a tyre or as people write it: blanks or none, small letters, any construction code (`R`, `ZR`, `B`, `-`),
    /// and behind it whatever service description. `None` for anything else.
    pub fn parse(text: &str) -> Option<TyreSize> {
        let text = text.trim_start().trim_start_matches(|letter: char| letter.is_ascii_alphabetic());
        let (width, rest) = number(text)?;
        let (aspect, rest) = number(rest.trim_start().strip_prefix('/')?)?;
        let code = |letter: char| letter.is_ascii_alphabetic() || letter.is_whitespace() || "-/".contains(letter);
        let (rim, rest) = number(rest.trim_start_matches(code))?;
        let within = |value: f64, [least, most]: [f64; 2]| (least..=most).contains(&value);
        let ends = !rest.starts_with(['/', '.', ',']);
        let size = TyreSize { width, aspect, rim };
        (ends && within(width, WIDTHS) && within(aspect, ASPECTS) && within(rim, RIMS)).then_some(size)
    }

    /// Half of the design outer diameter, mm.
    pub fn free_radius(self) -> f64 {
        self.rim / 2.0 * INCH + self.width * self.aspect / 100.0
    }

    /// Wheel centre to road under the standing car, mm, about.
    pub fn loaded_radius(self) -> f64 {
        LOADED * self.free_radius()
    }
}

/// A plain decimal number, decimal point or comma, at the beginning of a text, and what is behind it.
fn number(text: &str) -> Option<(f64, &str)> {
    let text = text.trim_start();
    let digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
    let mut end = digits(text);
    if let Some(decimals) = text[end..].strip_prefix(['.', ',']).map(digits).filter(|decimals| *decimals > 0) {
        end += 1 + decimals;
    }
    let value = text[..end].replace(',', ".").parse().ok()?;
    Some((value, &text[end..]))
}

impl fmt::Display for TyreSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{} R{}", self.width, self.aspect, self.rim)
    }
}
