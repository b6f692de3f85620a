//! The only rooms that touch `web_sys`, `js_sys` and `wasm_bindgen` (panes use them through here).

pub mod address;
pub mod api;
pub mod canvas;
pub mod chart;
pub mod files;
pub mod page;
pub mod window;
