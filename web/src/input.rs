//! Hands, keys and clocks, understood without a browser.

pub mod play;
pub mod pointer;
pub mod turning;
