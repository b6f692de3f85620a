//! Axes with round ends.

use crate::text::number::fixed;
use plotters::coord::ranged1d::{DefaultFormatting, KeyPointHint, Ranged};

/// A range with round ends and the ticks on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// Least.
    pub from: f64,
    /// Greatest.
    pub to: f64,
    /// Distance of the ticks.
    pub step: f64,
}

/// A curve that fills less than a quarter of its plot can't be read.
const MOST_WIDER: f64 = 4.0;

impl Axis {
    /// The smallest range with round ends (1, 2 or 5 times a power of ten) and at most `intervals` ticks apart that holds
    /// `from..to`; at least `span` wide, so that a constant does not show its noise.
    pub fn round(from: f64, to: f64, intervals: f64, span: f64) -> Axis {
        let middle = f64::midpoint(from, to);
        let half = f64::max(to - from, span) / 2.0;
        let (from, to) = (middle - half, middle + half);
        let rough = (to - from) / intervals;
        let ten = 10.0_f64.powf(rough.log10().floor());
        let fits = |step: &f64| (to / step).ceil() - (from / step).floor() <= intervals;
        let step = [1.0, 2.0, 5.0, 10.0, 20.0].map(|k| k * ten).into_iter().find(fits).unwrap_or(50.0 * ten);
        Axis { from: (from / step).floor() * step, to: (to / step).ceil() * step, step }
    }

    /// The range that holds another one too, unless that one is so many times as wide that this one would be lost in it.
    pub(super) fn no_narrower(&self, other: &Axis, intervals: f64) -> Axis {
        let (from, to) = (self.from.min(other.from), self.to.max(other.to));
        if to - from > MOST_WIDER * (self.to - self.from) {
            self.clone()
        } else if (from, to) == (other.from, other.to) {
            other.clone()
        } else {
            Axis::round(from, to, intervals, 0.0)
        }
    }

    /// From −`reach` to `reach`, the ends as they are: ticks at the halves where those are whole numbers.
    pub(super) fn either_way(reach: f64) -> Axis {
        let reach = f64::max(reach, 1.0);
        let step = if (reach / 2.0).fract() == 0.0 { reach / 2.0 } else { reach };
        Axis { from: -reach, to: reach, step }
    }

    /// The ticks, ends included.
    pub fn ticks(&self) -> Vec<f64> {
        let count = ((self.to - self.from) / self.step).round() as i32;
        (0..=count).map(|i| self.from + f64::from(i) * self.step).collect()
    }

    /// A tick's label: as many decimals as the step needs.
    pub fn label(&self, value: f64) -> String {
        let decimals = (-self.step.log10() - 1e-9).ceil().clamp(0.0, 6.0);
        fixed(value, decimals as usize)
    }
}

/// What plotters wants to know of an axis: ticks where this program puts them.
impl Ranged for Axis {
    type FormatOption = DefaultFormatting;
    type ValueType = f64;

    fn map(&self, value: &f64, (low, high): (i32, i32)) -> i32 {
        let part = (value - self.from) / (self.to - self.from);
        low + (part * f64::from(high - low)).round() as i32
    }

    fn key_points<Hint: KeyPointHint>(&self, _: Hint) -> Vec<f64> {
        self.ticks()
    }

    fn range(&self) -> std::ops::Range<f64> {
        self.from..self.to
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn axes_have_round_ends_that_hold_the_range() {
        for (from, to) in
            [(-60.0, 60.0), (-75.0, 75.0), (-2.09, -0.19), (0.0, 0.0), (4.18, 4.5), (-1e-9, 1e-9), (1e5, 3e5)]
        {
            let axis = Axis::round(from, to, 4.0, 0.1);
            let ticks = axis.ticks();
            assert!(axis.from <= from && axis.to >= to, "{axis:?}");
            assert!((2..=5).contains(&ticks.len()), "{axis:?}");
            assert!((ticks[ticks.len() - 1] - axis.to).abs() < 1e-9 * axis.step, "{axis:?}");
        }
        let (narrow, wide) = (Axis::round(0.0, 4.0, 4.0, 0.0), Axis::round(-2.0, 5.0, 4.0, 0.0));
        assert_eq!(narrow.no_narrower(&wide, 4.0), wide, "it does not shrink");
        let both = Axis::round(3.0, 8.0, 4.0, 0.0).no_narrower(&narrow, 4.0);
        assert!(both.from <= 0.0 && both.to >= 8.0 && both.ticks().len() <= 5, "{both:?}");
        let far = Axis::round(-100.0, 100.0, 4.0, 0.0);
        assert_eq!(narrow.no_narrower(&far, 4.0), narrow, "but what is small in it is shown large");
        assert_eq!(Axis::round(-60.0, 60.0, 4.0, 0.0).label(-50.0), "\u{2212}50");
        assert_eq!(Axis::round(4.18, 4.5, 4.0, 0.0).label(4.2), "4.2");
    }
}
