//! What comes with the page: demos, exercises, prepared axles, a story.

pub mod demos;
pub mod exercises;
pub mod measured;
pub mod racks;
pub mod story;
