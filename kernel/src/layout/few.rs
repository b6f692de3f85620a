//! A few values by their keys, in the order of the keys: what a layout has of a kind, some entries at most.

use serde::{Serialize, Serializer};

/// A map of a few entries.
#[derive(Clone, Debug, PartialEq)]
pub struct Few<K, V>(Vec<(K, V)>);

impl<K, V> Default for Few<K, V> {
    fn default() -> Few<K, V> {
        Few(Vec::new())
    }
}

impl<K: Copy + Ord, V> Few<K, V> {
    /// True without any entry.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The value of a key.
    pub fn get(&self, key: &K) -> Option<&V> {
        self.place(key).ok().map(|at| &self.0[at].1)
    }

    /// True with an entry of this key.
    pub fn contains_key(&self, key: &K) -> bool {
        self.place(key).is_ok()
    }

    /// Gives a key this value.
    pub fn insert(&mut self, key: K, value: V) {
        match self.place(&key) {
            Ok(at) => self.0[at].1 = value,
            Err(at) => self.0.insert(at, (key, value)),
        }
    }

    /// The values, to be changed.
    pub fn values_mut(&mut self) -> impl Iterator<Item = &mut V> {
        self.0.iter_mut().map(|(_, value)| value)
    }

    /// Takes an entry out.
    pub fn remove(&mut self, key: &K) {
        if let Ok(at) = self.place(key) {
            self.0.remove(at);
        }
    }

    /// Every entry, in the order of the keys.
    pub fn iter(&self) -> std::slice::Iter<'_, (K, V)> {
        self.0.iter()
    }

    fn place(&self, key: &K) -> Result<usize, usize> {
        self.0.binary_search_by(|(other, _)| other.cmp(key))
    }
}

impl<K: Copy + Ord, V> FromIterator<(K, V)> for Few<K, V> {
    fn from_iter<I: IntoIterator<Item = (K, V)>>(entries: I) -> Few<K, V> {
        let mut few = Few::default();
        entries.into_iter().for_each(|(key, value)| few.insert(key, value));
        few
    }
}

impl<K: Serialize, V: Serialize> Serialize for Few<K, V> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(key, value)| (key, value)))
    }
}
