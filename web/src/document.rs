//! Plain data: what is saved, shared and undone. Nothing is solved here.

pub mod alignment;
mod filed;
pub mod fitting;
mod freedom;
pub mod goal;
pub mod lesson;
mod loads;
mod measuring;
mod papers;
pub mod place;
mod saved;
pub mod series;
mod slides;
pub mod story;
pub mod tapes;
pub mod variant;

pub use freedom::Freedom;
pub use loads::{Case, Loads, OutOfRange};
pub use measuring::{Measured, Measuring};
pub use papers::Papers;
pub use saved::{Document, Hands, Lock, MOST_BESIDE, MOST_ERROR, MOST_PINNED, Over};
