//! A choice from a few words.

/// The word for a choice.
pub fn word<T: PartialEq, const N: usize>(all: [(T, &'static str); N], choice: T) -> &'static str {
    all.into_iter().find(|(other, _)| *other == choice).map_or("", |(_, word)| word)
}

/// The choice that a word means.
pub fn choice<T, const N: usize>(all: [(T, &'static str); N], word: &str) -> Option<T> {
    all.into_iter().find(|(_, other)| *other == word).map(|(choice, _)| choice)
}

/// The choice that a text begins with, and what stands behind it.
pub fn first<'a, T, const N: usize>(all: [(T, &'static str); N], text: &'a str) -> Option<(T, &'a str)> {
    let (word, rest) = text.split_once('_')?;
    Some((choice(all, word)?, rest))
}

/// The choice that a text ends with, and what stands before it.
pub fn last<'a, T, const N: usize>(all: [(T, &'static str); N], text: &'a str) -> Option<(&'a str, T)> {
    let (rest, word) = text.rsplit_once('_')?;
    Some((rest, choice(all, word)?))
}
