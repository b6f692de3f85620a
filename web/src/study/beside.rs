//! What the table of readings has beside a reading's present value.

use super::kept::Study;
use kernel::Reading;

impl Study {
    /// At rest, smallest and largest along the curves; beside an axle laid over (`None` in `compared` where it can't get here) its value, the
    /// difference from it, and at rest. Only what is shown is solved.
    pub fn beside(&self, reading: &Reading, against_another: bool) -> [Option<f64>; 3] {
        let good = &self.good;
        let rest = (reading.value)(&good.now_and_at_rest()[1]);
        if against_another {
            let (now, other) = (good.value(reading), self.compared.as_ref().and_then(|other| other.value(reading)));
            return [other, now.zip(other).map(|(now, other)| now - other), rest];
        }
        let along = good.range(reading);
        [rest, along.map(|[least, _]| least), along.map(|[_, most]| most)]
    }
}
