//! Opens the page, and hands out its JavaScript interface. What is handed out here and not in the library is in this program only.

/// Natively there is no page; the library is what the tests use.
fn main() {
    #[cfg(target_arch = "wasm32")]
    web::panes::open();
}

/// What JavaScript is told; `web::browser::api` says what each does.
#[cfg(target_arch = "wasm32")]
mod told {
    use wasm_bindgen::prelude::*;
    use web::browser::api;

    /// `ghostpin.solve(layout, options)`.
    #[wasm_bindgen]
    pub fn solve(layout: JsValue, options: JsValue) -> Result<JsValue, JsValue> {
        api::solve(layout, options)
    }

    /// `ghostpin.sweep(layout, options)`.
    #[wasm_bindgen]
    pub fn sweep(layout: JsValue, options: JsValue) -> Result<JsValue, JsValue> {
        api::sweep(layout, options)
    }

    /// Not part of the interface: what a measurement of the solver calls.
    #[wasm_bindgen]
    pub fn walk(file: &str, steps: u32) -> Result<f64, JsValue> {
        api::walk(file, steps)
    }
}
