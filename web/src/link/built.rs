//! What is shown and held of the car as it is built: which wheel, and what a hand on a joint keeps.

use super::parameter::Parameter;
use super::topic::Topic;
use super::words::{choice, word};
use crate::document::{Document, Hands};
use kernel::LeftOrRight;

/// `left` or `right`: the wheel that is shown where one is.
const SIDE: Parameter = Parameter::since(3, "side");

/// `design` or `build`: what a hand on a joint keeps.
const HANDS: Parameter = Parameter::since(3, "hands");

/// The sides, with their names in links.
const SIDES: [(LeftOrRight, &str); 2] = [(LeftOrRight::Left, "left"), (LeftOrRight::Right, "right")];

/// Both.
pub const TOPIC: Topic<Document> = Topic::new(
    |document, link| {
        link.put(SIDE, word(SIDES, document.side));
        link.put(HANDS, word(Hands::ALL, document.hands));
    },
    |link, document| {
        if let Some(text) = link.take(SIDE) {
            document.side = choice(SIDES, &text).unwrap_or_else(|| {
                link.wrong(SIDE, &text, "left or right");
                document.side
            });
        }
        if let Some(text) = link.take(HANDS) {
            document.hands = choice(Hands::ALL, &text).unwrap_or_else(|| {
                link.wrong(HANDS, &text, "design or build");
                document.hands
            });
        }
    },
);
