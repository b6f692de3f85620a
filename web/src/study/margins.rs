//! How far readings may be off: what is asked, and what comes of it. It is worked out in `work/margins.rs`.

use super::Known;

/// Standard deviations in what is told: about 95 of 100 axles lie within it (of a normal distribution 95.4 %).
pub const SIGMAS: f64 = 2.0;

/// What is asked of a wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// It, with its points' ±.
    pub known: Known,
    /// Travel and rack where it is shown, mm.
    pub at: [f64; 2],
    /// How far its curves over travel go each way, mm.
    pub reach: f64,
    /// The columns that have curves.
    pub columns: Vec<&'static str>,
}

/// What comes of it: ± of readings by their columns, in their own units.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Margins {
    /// Where the wheel is shown.
    pub here: Vec<(String, f64)>,
    /// Travel, value and ± of a column along its curve.
    pub along: Vec<(String, [f64; 3])>,
}
