//! What the table of readings has beside a reading's present value.

use super::curve::range;
use super::kept::Study;
use crate::text::quantity::Quantity;

impl Study {
    /// At rest, smallest and largest along the curves; beside an axle laid over (`None` in `compared` where it can't get here) its value, the
    /// difference from it, and at rest. Only what is shown is solved.
    pub fn beside(&self, quantity: Quantity, against_another: bool) -> [Option<f64>; 3] {
        let good = &self.good;
        let rest = match quantity {
            Quantity::Wheel(reading) => (reading.value)(&good.rest),
            Quantity::Axle(reading) => good.whole.as_ref().and_then(|[_, rest]| (reading.value)(rest)),
        };
        if against_another {
            let (now, other) = (good.value(quantity), self.compared.as_ref().and_then(|other| other.value(quantity)));
            return [other, now.zip(other).map(|(now, other)| now - other), rest];
        }
        let along = match quantity {
            Quantity::Wheel(reading) => good.over_travel().range(reading.value),
            Quantity::Axle(reading) => range(good.over_whole().iter().filter_map(|(_, whole)| (reading.value)(whole))),
        };
        [rest, along.map(|[least, _]| least), along.map(|[_, most]| most)]
    }
}
