//! The least distance of each pair of pieces over many positions.

use super::piece::Piece;
use super::pieces::Gap;

/// A travel and a rack displacement, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct At {
    /// The travel, mm.
    pub travel: f64,
    /// The rack displacement, mm.
    pub rack: f64,
}

/// The least distance of two pieces, and where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearance {
    /// The two.
    pub between: [Piece; 2],
    /// The least distance, mm; a negative one only says that they meet, its size is no depth.
    pub value: f64,
    /// The first position with it.
    pub at: At,
}

/// The least distance of each pair.
#[derive(Clone, Debug, Default)]
pub struct Clearances(Vec<Clearance>);

impl Clearances {
    /// Takes in the distances at one position.
    pub fn add(&mut self, at: At, gaps: &[Gap]) {
        if self.0.is_empty() {
            self.0 = gaps.iter().map(|gap| Clearance { between: gap.between, value: gap.value, at }).collect();
        }
        for (least, gap) in self.0.iter_mut().zip(gaps) {
            if gap.value < least.value {
                (least.value, least.at) = (gap.value, at);
            }
        }
    }

    /// All pairs, the least distance first.
    pub fn sorted(&self) -> Vec<Clearance> {
        let mut all = self.0.clone();
        all.sort_by(|a, b| a.value.total_cmp(&b.value));
        all
    }
}
