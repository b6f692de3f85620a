//! What comes with the page: demos, exercises, prepared axles, boxes and bends to begin with, a story.

pub mod arches;
pub mod bends;
pub mod boxes;
pub mod demos;
pub mod exercises;
pub mod goal;
pub mod measured;
pub mod racks;
pub mod story;
