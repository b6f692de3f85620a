//! The layouts that stand beside the document's own, since version 3.

use super::layout;
use super::topic::Topic;
use crate::document::{Document, MOST_BESIDE};

/// In their order, behind `a0.`, `a1.`, `a2.`.
pub const TOPIC: Topic<Document> = Topic::new(
    |document, link| {
        for (at, layout) in document.beside.iter().enumerate() {
            link.within(&prefix(at), |link| layout::write(layout, link));
        }
    },
    |link, document| {
        let layout = |at| {
            let prefix = prefix(at);
            link.has_any(&prefix).then(|| link.within(&prefix, layout::read))
        };
        document.beside = (0..MOST_BESIDE).map_while(layout).collect();
    },
);

/// What the names of an axle's parameters begin with.
fn prefix(at: usize) -> String {
    format!("a{at}.")
}
