//! What comes with the page: demos, exercises.

pub mod demos;
pub mod exercises;
