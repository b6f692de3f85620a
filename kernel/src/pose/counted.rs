//! How much has been solved on this thread: for tests of how little is. Only with the feature `counted`, so that the kernel the page is
//! built with keeps nothing between two calls.

use std::cell::Cell;

thread_local! {
    static RUNS: Cell<u64> = const { Cell::new(0) };
}

/// Counts one run of Newton's method.
pub(super) fn count() {
    RUNS.set(RUNS.get() + 1);
}

/// Runs of Newton's method on this thread so far: one a state, more where the way to it takes steps, and those that fail.
pub fn newton_runs() -> u64 {
    RUNS.get()
}
