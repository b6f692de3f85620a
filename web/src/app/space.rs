//! The room that the wheel shown takes up where it is now.

use super::App;
use kernel::space::{Gap, Pieces};

impl App {
    /// How near pieces are to each other now, the least distance first.
    pub fn gaps(&self) -> &[Gap] {
        self.asked.gaps.get_or_init(|| {
            let good = &self.study.good;
            let mut gaps = Pieces::of(&good.axle, good.axle.shown()).gaps(&good.now.position);
            gaps.sort_by(|a, b| a.value.total_cmp(&b.value));
            gaps
        })
    }
}
