//! What comes with the page: demos, exercises, a story.

pub mod demos;
pub mod exercises;
pub mod story;
