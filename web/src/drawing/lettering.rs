//! How wide words are, and where they are broken into lines.

/// The width of a text, px, at a height, px, from the face's advance widths; the same wherever the drawing is shown.
pub fn width(text: &str, size: f64) -> f64 {
    let thousandths: u32 = text.chars().map(advance).sum();
    f64::from(thousandths) / 1000.0 * size
}

/// Text in lines of at most so many px, broken at spaces, or anywhere in a word that is longer.
pub fn wrapped(text: &str, size: f64, width: f64) -> Vec<String> {
    let fits = |text: &str| self::width(text, size) <= width;
    let mut lines = vec![String::new()];
    let mut add = |piece: &str, glue: &str| {
        let last = lines.last_mut().map(std::mem::take).unwrap_or_default();
        let joined = if last.is_empty() { piece.to_string() } else { format!("{last}{glue}{piece}") };
        if fits(&joined) || last.is_empty() {
            *lines.last_mut().unwrap_or(&mut String::new()) = joined;
        } else {
            *lines.last_mut().unwrap_or(&mut String::new()) = last;
            lines.push(piece.to_string());
        }
    };
    for word in text.split(' ') {
        if fits(word) {
            add(word, " ");
        } else {
            word.chars().for_each(|letter| add(&letter.to_string(), ""));
        }
    }
    lines
}

/// Advance widths of Roboto Condensed 400, thousandths of an em, for the characters from space to tilde; read off the font.
const ADVANCE: [u16; 95] = [
    229, 246, 320, 548, 494, 633, 544, 175, 314, 319, 431, 497, 197, 248, 264, 371, 494, 494, 494, 494, 494, 494, 494,
    494, 494, 494, 233, 203, 446, 479, 460, 422, 769, 577, 546, 567, 571, 497, 481, 591, 620, 250, 483, 545, 476, 755,
    620, 601, 554, 601, 531, 519, 521, 562, 561, 762, 551, 525, 523, 250, 370, 250, 371, 405, 309, 479, 493, 462, 496,
    469, 316, 493, 483, 229, 224, 451, 229, 753, 484, 502, 493, 500, 305, 456, 296, 483, 428, 650, 439, 417, 439, 307,
    244, 307, 589,
];

fn advance(letter: char) -> u32 {
    let letter = if letter == '\u{a0}' { ' ' } else { letter };
    let index = (letter as usize).wrapping_sub(32);
    // Minus, degree and times signs are as wide as a digit, near enough.
    u32::from(ADVANCE.get(index).copied().unwrap_or(500))
}
