//! A series of exercises, of which one is shown.

/// The others, in order. All of them together go on by `turned`.
#[derive(Clone, Debug, PartialEq)]
pub struct Series<T> {
    /// Those before the one shown.
    pub before: Vec<T>,
    /// Those behind it.
    pub after: Vec<T>,
}

/// A series has at most so many exercises.
pub const MOST_EXERCISES: usize = 12;

impl<T> Default for Series<T> {
    fn default() -> Self {
        Series { before: Vec::new(), after: Vec::new() }
    }
}

impl<T> Series<T> {
    /// How many exercises there are with the one shown.
    pub fn count(&self) -> usize {
        self.before.len() + 1 + self.after.len()
    }

    /// True if the one shown is the only one.
    pub fn is_empty(&self) -> bool {
        self.count() == 1
    }

    /// The others in order.
    pub fn others(&self) -> impl Iterator<Item = &T> {
        self.before.iter().chain(&self.after)
    }

    /// All of them with the one shown, which is so many-th, from 0, at its place.
    pub fn with(self, shown: T) -> (Vec<T>, usize) {
        let at = self.before.len();
        (self.before.into_iter().chain([shown]).chain(self.after).collect(), at)
    }

    /// The one at a place and the others; the last for a place beyond. `None` for no exercises at all.
    pub fn at(mut all: Vec<T>, at: usize) -> Option<(T, Series<T>)> {
        let after = all.split_off((at + 1).min(all.len()));
        let shown = all.pop()?;
        Some((shown, Series { before: all, after }))
    }
}
