//! The browser. Only these rooms, and the panes built on them, name `web_sys`, `js_sys` and `wasm_bindgen` types.

pub mod address;
pub mod api;
pub mod canvas;
pub mod chart;
pub mod dom;
pub mod files;
pub mod film;
pub mod page;
pub mod storage;
pub mod underlay;
pub mod window;
pub mod work;
