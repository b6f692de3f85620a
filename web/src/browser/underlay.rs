//! A picture's pixels: read from a file on this device, and laid on the canvas.

use super::dom::window;
use crate::drawing::{Sheet, Theme, Underlay};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{CanvasRenderingContext2d, File, ImageBitmap, ImageBitmapOptions, ResizeQuality};

/// The longer side of a picture as it is kept, px: 16 MB of memory at most, whatever the camera, and finer than most screens.
const LONGEST: u32 = 2048;

/// A picture this wide is only asked which of its sides is the longer, px.
const PROBE: u32 = 64;

/// Reads a picture, its longer side [`LONGEST`]; `None` if the file is none that this browser knows. The browser reads and shrinks it
/// beside the page, so that its full size is never held here; a camera's note which way is up is heeded.
pub async fn read(file: &File) -> Option<ImageBitmap> {
    let probe = shrunk(file, true, PROBE).await?;
    let wide = probe.width() >= probe.height();
    probe.close();
    shrunk(file, wide, LONGEST).await
}

/// The picture with its width or its height so many px, and its proportions.
async fn shrunk(file: &File, width: bool, px: u32) -> Option<ImageBitmap> {
    let options = ImageBitmapOptions::new();
    options.set_resize_quality(ResizeQuality::Medium);
    if width {
        options.set_resize_width(px);
    } else {
        options.set_resize_height(px);
    }
    let promise = window().create_image_bitmap_with_blob_and_image_bitmap_options(file, &options).ok()?;
    JsFuture::from(promise).await.ok()?.dyn_into().ok()
}

/// Lays a picture on a canvas that has been drawn on as if the drawing were on glass over it: on light paper ink darkens the
/// picture, on dark paper chalk lights it up. So what the drawing fills, tyre and carrier, hides nothing of the picture.
pub fn lay(
    context: &CanvasRenderingContext2d,
    pixels: &ImageBitmap,
    under: &Underlay,
    sheet: &Sheet,
    theme: Theme,
    ratio: f64,
) {
    let Some([min, max]) = sheet.area(under.view) else { return };
    let [a, b, c, d, e, f] = under.matrix(sheet).map(|number| number * ratio);
    context.save();
    context.begin_path();
    context.rect(min[0], min[1], max[0] - min[0], max[1] - min[1]);
    context.clip();
    context.set_global_alpha(under.opacity);
    // What these are called is the canvas's own; neither fails.
    let _ = context.set_global_composite_operation(if theme.dark { "screen" } else { "multiply" });
    let _ = context.set_transform(a, b, c, d, e, f);
    let _ = context.draw_image_with_image_bitmap(pixels, 0.0, 0.0);
    context.restore();
}
