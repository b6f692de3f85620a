//! Repair: readings were found that are not as they should be; which single part that differs would explain all of them?

mod causes;
mod fit;
mod found;
mod further;

pub use causes::{Cause, Causes, Search, TOLD_APART, tried};
pub use fit::NoFit;
pub use found::{Found, Value};
pub use further::{Further, Gauge};
