//! A link as a QR code.

use crate::drawing::{Fill, Ink, Item, Scene, Step};
use qrcodegen::{QrCode, QrCodeEcc};

/// The largest QR code a projector can show and a phone still read: a link of more bytes has none.
pub const MOST_QR: usize = 1_200;

/// A link as a QR code with its quiet zone, a module 4 px; `None` for a link that is too long.
pub fn qr(link: &str) -> Option<Scene> {
    const MODULE: f64 = 4.0;
    const QUIET: f64 = 4.0;
    let code = QrCode::encode_text(link, QrCodeEcc::Low).ok().filter(|_| link.len() <= MOST_QR)?;
    let side = (f64::from(code.size()) + 2.0 * QUIET) * MODULE;
    let mut scene = Scene::new([side, side]);
    let square = |x: f64, y: f64, size: f64| {
        [
            Step::Move([x, y]),
            Step::Line([x + size, y]),
            Step::Line([x + size, y + size]),
            Step::Line([x, y + size]),
            Step::Close,
        ]
    };
    scene.items.push(Item::Path {
        steps: square(0.0, 0.0, side).to_vec(),
        fill: Some(Fill::solid(Ink::Paper)),
        stroke: None,
    });
    let dark =
        (0..code.size()).flat_map(|y| (0..code.size()).map(move |x| (x, y))).filter(|(x, y)| code.get_module(*x, *y));
    let steps = dark
        .flat_map(|(x, y)| square((f64::from(x) + QUIET) * MODULE, (f64::from(y) + QUIET) * MODULE, MODULE))
        .collect();
    scene.items.push(Item::Path { steps, fill: Some(Fill::solid(Ink::Ink)), stroke: None });
    Some(scene)
}
