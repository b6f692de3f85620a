//! What the table of readings has beside a reading's present value.

use super::curve::range;
use super::kept::Study;
use crate::text::quantity::Quantity;

impl Study {
    /// At rest, smallest and largest along the curves. Beside an axle laid over (`None` in `compared` where it can't get here), or beside the other
    /// wheel where the two differ: its value, the difference from it, and at rest; beside an axle laid over the other wheel's value comes last.
    /// Only what is shown is solved.
    pub fn beside(&self, quantity: Quantity, against_another: bool) -> [Option<f64>; 3] {
        let good = &self.good;
        let rest = match quantity {
            Quantity::Wheel(reading) => (reading.value)(&good.rest),
            Quantity::Axle(reading) => good.whole.as_ref().and_then(|[_, rest]| (reading.value)(rest)),
        };
        let against =
            |other: Option<f64>, last| [other, good.value(quantity).zip(other).map(|(now, other)| now - other), last];
        let differ = good.axle.sides_differ();
        let other_wheel = match quantity {
            Quantity::Wheel(reading) => good.other().and_then(reading.value),
            Quantity::Axle(_) => None,
        };
        if against_another {
            let laid_over = self.compared.as_ref().and_then(|laid_over| laid_over.value(quantity));
            return against(laid_over, if differ { other_wheel } else { rest });
        }
        if differ {
            return against(other_wheel, rest);
        }
        let along = match quantity {
            Quantity::Wheel(reading) => good.over_travel().range(reading.value),
            Quantity::Axle(reading) => range(good.over_whole().iter().filter_map(|(_, whole)| (reading.value)(whole))),
        };
        [rest, along.map(|[least, _]| least), along.map(|[_, most]| most)]
    }
}
