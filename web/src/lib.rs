//! The page: a thin shell round a pure *state → update → drawing*.
//!
//! Everything but `browser` and `panes` is free of web types and tested natively.

pub mod app;
pub mod block;
pub mod demos;
pub mod document;
pub mod drafts;
pub mod drawing;
pub mod exercises;
pub mod history;
pub mod lesson;
pub mod link;
pub mod loaded;
pub mod number;
pub mod pass_on;
pub mod place;
pub mod play;
pub mod plot;
pub mod pointer;
pub mod story;
pub mod study;
pub mod svg;
pub mod told;
pub mod typed;
pub mod work;

#[cfg(target_arch = "wasm32")]
pub mod browser;
#[cfg(target_arch = "wasm32")]
pub mod panes;
