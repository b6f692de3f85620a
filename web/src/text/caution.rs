//! The caution that stands under everything that leaves the page. The markup has it too, for a page whose program has not come; a test compares them.

/// Shorthand, so that the long caution begins with the short one.
macro_rules! study {
    () => {
        "A geometry study for learning; not a design approval."
    };
}

/// What the page is, and is not.
pub const STUDY: &str = study!();

/// The same, and who may have to be asked.
pub const CAUTION: &str =
    concat!(study!(), " Steering and suspension changes may need official approval where you live.");
