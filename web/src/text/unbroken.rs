//! Lines break between words, not within a unit.

use std::borrow::Cow;

/// What a line would break at, and the same with a no-break join or a no-break space there.
const JOINS: [(&str, &str); 4] =
    [("/°", "/\u{2060}°"), ("/′", "/\u{2060}′"), ("/10 mm", "/10\u{a0}mm"), ("/100 N·m", "/100\u{a0}N·m")];

/// A text whose units do not break across lines.
pub fn unbroken(text: &str) -> Cow<'_, str> {
    let joined = |text: Cow<'_, str>, (breaks, keeps): &(&str, &str)| text.replace(breaks, keeps).into();
    // Most that is shown has no such unit.
    if text.contains('/') { JOINS.iter().fold(text.to_string().into(), joined) } else { text.into() }
}
