//! The page: a thin shell round a pure *state → update → drawing*.
//!
//! Everything but `browser` and `panes` is free of web types and tested natively. The rooms stand in the order in which they
//! import: each from those above it.

pub mod text;

pub mod document;

pub mod study;

pub mod content;
pub mod link;

pub mod drawing;
pub mod plot;

pub mod app;

pub mod work;

pub mod input;

pub mod exchange;

#[cfg(target_arch = "wasm32")]
pub mod browser;
#[cfg(target_arch = "wasm32")]
pub mod panes;
