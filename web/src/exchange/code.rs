//! A link as a QR code.

use crate::drawing::{Fill, Ink, Item, P, Scene, Step};
use qrcodegen::{QrCode, QrCodeEcc};

/// The largest QR code a projector can show and a phone still read: a link of more bytes has none.
pub const MOST_QR: usize = 1_200;

/// The quiet zone round a code, modules (ISO/IEC 18004).
const QUIET: f64 = 4.0;

fn code(link: &str) -> Option<QrCode> {
    QrCode::encode_text(link, QrCodeEcc::Low).ok().filter(|_| link.len() <= MOST_QR)
}

/// A link as a QR code with its quiet zone, a module 4 px; `None` for a link that is too long.
pub fn qr(link: &str) -> Option<Scene> {
    const MODULE: f64 = 4.0;
    let side = (f64::from(code(link)?.size()) + 2.0 * QUIET) * MODULE;
    Some(Scene { items: items(link, [0.0; 2], side)?, ..Scene::new([side; 2]) })
}

/// The same as a part of another scene: a square of this side, its upper left corner at a place.
pub fn items(link: &str, [x0, y0]: P, side: f64) -> Option<Vec<Item>> {
    let code = code(link)?;
    let module = side / (f64::from(code.size()) + 2.0 * QUIET);
    let square = |x: f64, y: f64, size: f64| {
        [
            Step::Move([x, y]),
            Step::Line([x + size, y]),
            Step::Line([x + size, y + size]),
            Step::Line([x, y + size]),
            Step::Close,
        ]
    };
    let dark =
        (0..code.size()).flat_map(|y| (0..code.size()).map(move |x| (x, y))).filter(|(x, y)| code.get_module(*x, *y));
    let place = |at: i32| (f64::from(at) + QUIET) * module;
    let modules = dark.flat_map(|(x, y)| square(x0 + place(x), y0 + place(y), module)).collect();
    let filled = |steps, ink| Item::Path { steps, fill: Some(Fill::solid(ink)), stroke: None };
    Some(vec![filled(square(x0, y0, side).to_vec(), Ink::Paper), filled(modules, Ink::Ink)])
}
