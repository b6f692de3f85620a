//! What the table of readings has beside a reading's present value.

use super::kept::Study;
use kernel::{Reading, Subject};

impl Study {
    /// At rest, smallest and largest along the curves. Beside an axle laid over (`None` in `compared` where it can't get here), or beside the other
    /// wheel where the two differ: its value, the difference from it, and at rest; beside an axle laid over the other wheel's value comes last.
    /// Only what is shown is solved.
    pub fn beside(&self, reading: &Reading, against_another: bool) -> [Option<f64>; 3] {
        let good = &self.good;
        let rest = (reading.value)(&good.now_and_at_rest()[1]);
        let against =
            |other: Option<f64>, last| [other, good.value(reading).zip(other).map(|(now, other)| now - other), last];
        let differ = good.axle.sides_differ();
        let other_wheel = match reading.subject() {
            Subject::Axle => None,
            _ => good.other_now().and_then(|wheel| (reading.value)(&wheel)),
        };
        if against_another {
            let laid_over = self.compared.as_ref().and_then(|laid_over| laid_over.value(reading));
            return against(laid_over, if differ { other_wheel } else { rest });
        }
        if differ {
            return against(other_wheel, rest);
        }
        let along = good.range(reading);
        [rest, along.map(|[least, _]| least), along.map(|[_, most]| most)]
    }
}
