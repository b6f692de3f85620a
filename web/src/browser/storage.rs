//! What the browser keeps between visits. It may be full, blocked or absent: then nothing is kept, and nothing breaks.

use super::dom::window;
use web_sys::Storage;

const KEY: &str = "ghostpin";

fn storage() -> Option<Storage> {
    window().local_storage().ok().flatten()
}

/// What is kept.
pub fn kept() -> String {
    storage().and_then(|storage| storage.get_item(KEY).ok().flatten()).unwrap_or_default()
}

/// Keeps a text; false where the browser does not.
pub fn keep(text: &str) -> bool {
    storage().is_some_and(|storage| storage.set_item(KEY, text).is_ok())
}

/// True if the browser keeps what it is given.
pub fn works() -> bool {
    keep(&kept())
}
