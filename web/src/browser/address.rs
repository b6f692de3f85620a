//! The address bar: reads the link a page was opened with, writes the present one.

use super::dom::{document, window};
use wasm_bindgen::JsValue;

/// Asks for little chrome.
const EMBED: &str = "embed=1";

/// Asks for a page of help, by its name.
const HELP: &str = "help=";

/// The parameters the page was opened with: after `#`, else after `?`, else what an offline copy was saved with; without what only
/// says that the page is embedded, or that a page of help is read.
pub fn parameters() -> String {
    let all = Some(all()).filter(|all| !all.is_empty()).or_else(|| told("shown")).unwrap_or_default();
    let parts: Vec<&str> = all.split('&').filter(|part| *part != EMBED && !part.starts_with(HELP)).collect();
    parts.join("&")
}

fn all() -> String {
    let location = window().location();
    let hash = location.hash().unwrap_or_default();
    let all = if hash.len() > 1 { hash } else { location.search().unwrap_or_default() };
    all.trim_start_matches(['#', '?']).to_string()
}

/// What an offline copy was told when it was saved.
fn told(name: &str) -> Option<String> {
    let meta = document().query_selector(&format!("meta[name={name}]")).ok().flatten()?;
    meta.get_attribute("content").filter(|content| !content.is_empty())
}

/// The address of the page with these parameters after `#`.
pub fn link(parameters: &str) -> String {
    let location = window().location();
    // A copy on somebody's disk passes on the address it came from.
    if let Some(public) = told("address") {
        return format!("{public}#{parameters}");
    }
    let origin = location.origin().unwrap_or_default();
    format!("{origin}{}#{parameters}", location.pathname().unwrap_or_default())
}

/// True if the page is embedded in another one and asked to show little.
pub fn embedded() -> bool {
    all().split('&').any(|part| part == EMBED)
}

/// The page of help that the address asks for; an embedded page has none.
pub fn help() -> Option<String> {
    let page = all().split('&').find_map(|part| part.strip_prefix(HELP).map(String::from));
    page.filter(|_| !embedded())
}

/// The link to a page of help, whatever axle its reader has.
pub fn help_link(page: &str) -> String {
    link(&format!("{HELP}{page}"))
}

/// The parameters with what keeps an embedded page one, and with the page of help that is read now: the way back leads there.
pub fn own(parameters: String) -> String {
    let read =
        document().query_selector("#help-page[open]").ok().flatten().and_then(|page| page.get_attribute("data-read"));
    match read {
        Some(page) => format!("{parameters}&{HELP}{page}"),
        None if embedded() => format!("{parameters}&{EMBED}"),
        None => parameters,
    }
}

/// Shows a link's parameters in the address bar, in place of the present one. Browsers limit how often; the next write then catches up.
pub fn show(parameters: &str) {
    if let Ok(history) = window().history() {
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&format!("#{parameters}")));
    }
}
