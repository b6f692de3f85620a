//! Another start for each student, of one lesson: what may be moved is elsewhere, and everything asked for stays the same.

use crate::document::Document;
use crate::document::lesson::{Answer, Prediction, mark};
use kernel::Axle;

/// So many starts are tried until one can be assembled and is not solved already.
const TRIES: u64 = 50;

/// The document as the student of a number in class, or a name, gets it; `None` if no start can be found, or none is asked for. The same for the
/// same text, in whatever letters.
pub fn varied(document: &Document, variant: &str) -> Option<Document> {
    let name = variant.trim().to_ascii_lowercase();
    let lesson = document.lesson.as_ref().filter(|lesson| lesson.vary > 0.0 && !name.is_empty())?;
    (0..TRIES).find_map(|nth| {
        let mut layout = document.layout.clone();
        for (at, free) in lesson.free.iter().enumerate() {
            let part = part(&format!("{name} {nth} {at}"));
            let point = layout.point_mut(free.point)?;
            let mm = point[free.axis.min(2)] + lesson.vary * (2.0 * part - 1.0);
            // To the tenth of a mm that the page shows, within what a student may set.
            point[free.axis.min(2)] = ((10.0 * mm).round() / 10.0).clamp(free.range[0], free.range[1]);
        }
        Axle::new(&layout).ok()?;
        let answer = Answer { variant: variant.trim().into(), ..document.answer.clone() };
        let mut other = Document { layout, answer, ..document.clone() };
        let solved = !lesson.aims.is_empty() && lesson.aims.iter().all(|aim| aim.reached(&other));
        if solved {
            return None;
        }
        let (begin, place) = (mark(&other.layout), lesson.predict.map(|prediction| prediction.place));
        let there = place.map(|place| Document { travel: place.travel, rack: place.rack, ..other.clone() });
        let predict = lesson.predict.and_then(|prediction| Prediction::of(prediction.column, &there?));
        let lesson = other.lesson.as_mut()?;
        (lesson.begin, lesson.predict) = (begin, predict);
        Some(other)
    })
}

/// A number from 0 to 1 that a text stands for: 32 bits of FNV-1a, mixed once more so that neighbouring texts are far apart.
fn part(text: &str) -> f64 {
    let hash = text.bytes().fold(0x811C_9DC5_u32, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193));
    let mixed = (hash ^ (hash >> 16)).wrapping_mul(0x85EB_CA6B);
    f64::from(mixed ^ (mixed >> 13)) / f64::from(u32::MAX)
}
