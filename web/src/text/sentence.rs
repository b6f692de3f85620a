//! Sentences.

/// With a capital letter: what the kernel says may begin with a quantity, and on the page it begins a sentence.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |first| [first.to_ascii_uppercase()].into_iter().chain(letters).collect())
}
