//! The only rooms that touch `web_sys`, `js_sys` and `wasm_bindgen` (panes build on them).

pub mod address;
pub mod api;
pub mod canvas;
pub mod chart;
pub mod dom;
pub mod files;
pub mod page;
pub mod window;
