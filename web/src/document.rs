//! Plain data: what is saved, shared and undone. Nothing is solved here.

pub mod lesson;
pub mod place;
mod saved;
pub mod story;

pub use saved::{Case, Document, Loads, Lock, MOST_ERROR, MOST_PINNED, Over, Quantity};
