//! Opens the page, nothing else.

/// Natively there is no page; the library is what the tests use.
fn main() {
    #[cfg(target_arch = "wasm32")]
    web::panes::open();
}
