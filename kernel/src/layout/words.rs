//! Words from outside: names, notes, captions. Every reader takes them by the same rule, so that a layout is the same in a file, in a
//! link and in a box of the page.

/// A text on one line and without what a reader can't see: line breaks and other control characters become spaces, signs that
/// turn the direction of writing (Unicode's bidirectional controls) are left out, for they could show a name other than it is.
pub fn clean(text: &str) -> String {
    let breaks = |c: char| c.is_control() || matches!(c, '\u{2028}' | '\u{2029}');
    text.chars().filter(|c| !turns(*c)).map(|c| if breaks(c) { ' ' } else { c }).collect()
}

/// The same of a text that may have several lines: they stay.
pub fn clean_lines(text: &str) -> String {
    text.lines().map(clean).collect::<Vec<_>>().join("\n")
}

/// The bidirectional controls: marks, embeddings and overrides, isolates (Unicode Standard Annex 9, table 4).
fn turns(c: char) -> bool {
    matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A text cut to what a sentence can carry.
pub fn clip(text: &str) -> String {
    clean(text).trim().chars().take(40).collect()
}
