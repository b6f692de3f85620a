//! The layout that is laid over, if there is one.

use super::layout;
use super::topic::Topic;
use crate::document::Document;

/// What the names of its parameters begin with, in a document and in a shot.
pub const COMPARED: &str = "b.";

/// The compared layout.
pub const TOPIC: Topic<Document> = Topic::new(
    |document, link| {
        if let Some(compared) = &document.compared {
            link.within(COMPARED, |link| layout::write(compared, link));
        }
    },
    |link, document| {
        document.compared = link.has_any(COMPARED).then(|| link.within(COMPARED, layout::read));
    },
);
