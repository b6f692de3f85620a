//! The address bar: reads the link a page was opened with, writes the present one.

use super::dom::window;
use wasm_bindgen::JsValue;

/// The parameters the page was opened with: after `#`, else after `?`.
pub fn parameters() -> String {
    let location = window().location();
    let hash = location.hash().unwrap_or_default();
    if hash.len() > 1 { hash } else { location.search().unwrap_or_default() }
}

/// The address of the page with these parameters after `#`.
pub fn link(parameters: &str) -> String {
    let location = window().location();
    let origin = location.origin().unwrap_or_default();
    format!("{origin}{}#{parameters}", location.pathname().unwrap_or_default())
}

/// Shows a link in the address bar, in place of the present one. Browsers limit how often; the next write then catches up.
pub fn show(link: &str) {
    if let Ok(history) = window().history() {
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(link));
    }
}
