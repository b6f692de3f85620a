//! Frames → a film file: each is painted on a canvas of its own and encoded (WebCodecs), as fast as the machine can, in front or behind.

use super::canvas::{context, paint};
use super::dom::{document, window};
use crate::drawing::Theme;
use crate::exchange::film::{Film, RATE};
use crate::exchange::webm::{Frame, Track, webm};
use js_sys::{Array, Object, Promise, Reflect, Uint8Array};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, HtmlCanvasElement};

/// What of WebCodecs (W3C) is needed here; web-sys does not count it as settled yet.
#[wasm_bindgen]
extern "C" {
    type VideoEncoder;
    #[wasm_bindgen(constructor, catch)]
    fn new(init: &JsValue) -> Result<VideoEncoder, JsValue>;
    #[wasm_bindgen(static_method_of = VideoEncoder, catch, js_name = isConfigSupported)]
    fn is_supported(config: &JsValue) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch)]
    fn configure(this: &VideoEncoder, config: &JsValue) -> Result<(), JsValue>;
    #[wasm_bindgen(method, catch)]
    fn encode(this: &VideoEncoder, frame: &VideoFrame, options: &JsValue) -> Result<(), JsValue>;
    #[wasm_bindgen(method, catch)]
    fn flush(this: &VideoEncoder) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch)]
    fn close(this: &VideoEncoder) -> Result<(), JsValue>;
    #[wasm_bindgen(method, getter, js_name = encodeQueueSize)]
    fn waiting(this: &VideoEncoder) -> u32;
    #[wasm_bindgen(method, setter, js_name = ondequeue)]
    fn on_dequeue(this: &VideoEncoder, act: &JsValue);

    type VideoFrame;
    #[wasm_bindgen(constructor, catch)]
    fn of(canvas: &HtmlCanvasElement, init: &JsValue) -> Result<VideoFrame, JsValue>;
    #[wasm_bindgen(method, js_name = close)]
    fn end(this: &VideoFrame);

    type EncodedVideoChunk;
    #[wasm_bindgen(method, getter, js_name = byteLength)]
    fn length(this: &EncodedVideoChunk) -> u32;
    #[wasm_bindgen(method, getter)]
    fn timestamp(this: &EncodedVideoChunk) -> f64;
    #[wasm_bindgen(method, getter, js_name = type)]
    fn kind(this: &EncodedVideoChunk) -> String;
    #[wasm_bindgen(method, js_name = copyTo)]
    fn copy_to(this: &EncodedVideoChunk, bytes: &Uint8Array);
}

/// Codecs that stand in a WebM file, the one that makes less of a drawing first: as WebCodecs calls them, as the file does.
const CODECS: [(&str, &str); 2] = [("vp09.00.40.08", "V_VP9"), ("vp8", "V_VP8")];

/// Bits a second at most, as many as thin lines on paper need at full size; and frames from one key frame to the next: two seconds.
const BITS: f64 = 6e6;
const KEYS: usize = 60;

/// Frames that wait for the encoder before the next is painted.
const WAITING: u32 = 3;

/// Why there is no film.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoFilm {
    /// This browser can't encode frames.
    Unable,
    /// It broke off.
    Broken,
    /// Nobody wants it any more.
    Stopped,
}

/// True where frames can be encoded, as far as can be told before it is tried.
pub fn can_encode() -> bool {
    Reflect::has(&window(), &"VideoEncoder".into()).unwrap_or(false)
}

fn object(parts: &[(&str, JsValue)]) -> JsValue {
    let object = Object::new();
    for (name, value) in parts {
        // Fails only on what is no object.
        let _ = Reflect::set(&object, &(*name).into(), value);
    }
    object.into()
}

/// How the encoder is set for a codec. For quality: else it may leave out frames to be in time.
fn config(codec: &str, [width, height]: [u32; 2]) -> JsValue {
    object(&[
        ("codec", codec.into()),
        ("width", width.into()),
        ("height", height.into()),
        ("framerate", RATE.into()),
        ("bitrate", BITS.into()),
        ("latencyMode", "quality".into()),
    ])
}

/// The first codec that this browser has.
async fn codec(size: [u32; 2]) -> Option<(&'static str, &'static str)> {
    for (name, id) in CODECS {
        let asked = VideoEncoder::is_supported(&config(name, size)).ok();
        if let Some(asked) = asked
            && let Ok(answer) = JsFuture::from(asked).await
            && Reflect::get(&answer, &"supported".into()).is_ok_and(|yes| yes.is_truthy())
        {
            return Some((name, id));
        }
    }
    None
}

/// What the encoder has told.
#[derive(Default)]
struct Heard {
    frames: RefCell<Vec<Frame>>,
    failed: Cell<bool>,
}

/// An encoder at work, and what hears it.
struct Encoding {
    encoder: VideoEncoder,
    heard: Rc<Heard>,
    _output: Closure<dyn FnMut(EncodedVideoChunk)>,
    _error: Closure<dyn FnMut(JsValue)>,
}

impl Encoding {
    fn new(config: &JsValue) -> Option<Encoding> {
        let heard = Rc::<Heard>::default();
        let told = heard.clone();
        let output = Closure::<dyn FnMut(EncodedVideoChunk)>::new(move |chunk: EncodedVideoChunk| {
            let bytes = Uint8Array::new_with_length(chunk.length());
            chunk.copy_to(&bytes);
            let frame = Frame { at: chunk.timestamp() / 1000.0, key: chunk.kind() == "key", bytes: bytes.to_vec() };
            told.frames.borrow_mut().push(frame);
        });
        let told = heard.clone();
        let error = Closure::<dyn FnMut(JsValue)>::new(move |_: JsValue| told.failed.set(true));
        let init = object(&[("output", output.as_ref().clone()), ("error", error.as_ref().clone())]);
        let encoder = VideoEncoder::new(&init).ok()?;
        encoder.configure(config).ok()?;
        Some(Encoding { encoder, heard, _output: output, _error: error })
    }

    /// Hands over the canvas as a frame.
    fn take(&self, canvas: &HtmlCanvasElement, frame: usize, key: bool) -> Option<()> {
        // µs.
        let [at, next] = [frame, frame + 1].map(|frame| (Film::time(frame) * 1000.0).round());
        let picture =
            VideoFrame::of(canvas, &object(&[("timestamp", at.into()), ("duration", (next - at).into())])).ok()?;
        let taken = self.encoder.encode(&picture, &object(&[("keyFrame", key.into())]));
        picture.end();
        taken.ok()
    }

    /// Comes back once there is room for a frame; a browser that does not tell is asked to finish what it has.
    async fn room(&self) {
        let tells = Reflect::has(&self.encoder, &"ondequeue".into()).unwrap_or(false);
        while self.encoder.waiting() >= WAITING && !self.heard.failed.get() {
            if tells {
                let next = Promise::new(&mut |resolve, _| self.encoder.on_dequeue(&resolve));
                let _ = JsFuture::from(next).await;
            } else {
                self.finish().await;
            }
        }
    }

    async fn finish(&self) {
        if let Ok(finished) = self.encoder.flush()
            && JsFuture::from(finished).await.is_ok()
        {
            return;
        }
        self.heard.failed.set(true);
    }
}

impl Drop for Encoding {
    fn drop(&mut self) {
        // Fails only if it is closed already.
        let _ = self.encoder.close();
    }
}

/// Makes the file, telling how many frames are done, for as long as it is wanted.
pub async fn make(mut film: Film, wanted: &Cell<bool>, done: impl Fn(usize)) -> Result<Blob, NoFilm> {
    let size = film.size();
    let (codec, id) = if can_encode() { codec(size).await.ok_or(NoFilm::Unable)? } else { return Err(NoFilm::Unable) };
    let encoding = Encoding::new(&config(codec, size)).ok_or(NoFilm::Unable)?;
    let canvas: HtmlCanvasElement =
        document().create_element("canvas").ok().and_then(|canvas| canvas.dyn_into().ok()).ok_or(NoFilm::Unable)?;
    let ratio = film.ratio();
    let frames = film.frames();
    let mut last_key = 0;
    for number in 0..frames {
        let (scene, begins) = film.frame(number).ok_or(NoFilm::Broken)?;
        let context = context(&canvas, scene.size, ratio).ok_or(NoFilm::Unable)?;
        paint(&context, &scene, Theme::LIGHT, ratio);
        let key = begins || number >= last_key + KEYS;
        if key {
            last_key = number;
        }
        encoding.take(&canvas, number, key).ok_or(NoFilm::Broken)?;
        encoding.room().await;
        done(number + 1);
        match (encoding.heard.failed.get(), wanted.get()) {
            (true, _) => return Err(NoFilm::Broken),
            (_, false) => return Err(NoFilm::Stopped),
            _ => {}
        }
    }
    encoding.finish().await;
    let encoded = encoding.heard.frames.borrow();
    if encoding.heard.failed.get() || encoded.len() != frames {
        return Err(NoFilm::Broken);
    }
    let track = Track { codec: id, size, lasts: film.lasts() * 1000.0, each: 1000.0 / RATE };
    let file = webm(&track, &encoded);
    let options = BlobPropertyBag::new();
    options.set_type("video/webm");
    let parts = Array::of1(&Uint8Array::from(&file[..]));
    Blob::new_with_u8_array_sequence_and_options(&parts, &options).map_err(|_| NoFilm::Broken)
}
