//! Layout files: from the picker or dropped, and saved.

use super::canvas::{context, paint};
use super::dom::{document, window};
use crate::drawing::{Scene, Theme};
use js_sys::Promise;
use kernel::Layout;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, File, HtmlAnchorElement, HtmlCanvasElement, Response, Url};

/// Reads a layout file. A file above the limit is refused unread; the sentence says what is wrong with one that is none.
pub async fn read(file: File) -> Result<Layout, String> {
    // A file's size is a whole number of bytes below 2^53.
    let size = file.size();
    if size > Layout::MAX_FILE as f64 {
        return Err(Layout::too_big(size as usize));
    }
    let text = JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string());
    Layout::from_json(&text.ok_or("The file can’t be read.")?)
}

/// A text that stands beside the page; `None` where it can't be fetched.
pub async fn text(address: &str) -> Option<String> {
    let response: Response = JsFuture::from(window().fetch_with_str(address)).await.ok()?.dyn_into().ok()?;
    JsFuture::from(response.text().ok().filter(|_| response.ok())?).await.ok()?.as_string()
}

/// The self-contained copy of this page, told the address its links lead to and the parameters of what it opens with; `None` where
/// there is none to fetch.
pub async fn offline_copy(parameters: &str) -> Option<String> {
    let text = text("offline.html").await?;
    let address = super::address::link("");
    let told = |text: String, name: &str, content: &str| {
        let content = content.replace('&', "&amp;").replace('"', "&quot;");
        text.replacen(&format!("name=\"{name}\" content=\"\""), &format!("name=\"{name}\" content=\"{content}\""), 1)
    };
    Some(told(told(text, "address", address.trim_end_matches('#')), "shown", parameters))
}

/// Promises a scene as a PNG blob, twice as many pixels as it has.
pub fn png(scene: &Scene, theme: Theme) -> Option<Promise> {
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.dyn_into().ok()?;
    paint(&context(&canvas, scene.size, 2.0)?, scene, theme, 2.0);
    // Refused, the promise never ends, and nothing waits for it but its own task.
    Some(Promise::new(&mut |resolve, _| drop(canvas.to_blob(&resolve))))
}

/// Offers a promised PNG as a file to keep.
pub async fn save_png(name: &str, png: Promise) -> Option<()> {
    offer(name, JsFuture::from(png).await.ok()?.dyn_ref()?)
}

/// Offers a text as a file to keep.
pub fn save(name: &str, kind: &str, text: &str) -> Option<()> {
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    let parts = js_sys::Array::of1(&JsValue::from_str(text));
    let blob = Blob::new_with_str_sequence_and_options(&parts, &options).ok()?;
    offer(name, &blob)
}

/// Offers a blob as a file to keep.
pub fn offer(name: &str, blob: &Blob) -> Option<()> {
    let url = Url::create_object_url_with_blob(blob).ok()?;
    let anchor: HtmlAnchorElement = document().create_element("a").ok()?.dyn_into().ok()?;
    anchor.set_href(&url);
    anchor.set_download(name);
    anchor.click();
    Url::revoke_object_url(&url).ok()
}
