//! What a layout is called, and what is noted of it.

use crate::link::parameter::Parameter;
use crate::link::topic::Topic;
use kernel::{LONGEST_NAME, LONGEST_NOTE};

/// Text.
const NAME: Parameter = Parameter::needed("name");

/// Text.
const NOTE: Parameter = Parameter::needed("note");

/// Both.
pub const TOPIC: Topic<kernel::Layout> = Topic::new(
    |layout, link| {
        link.text(NAME, &layout.name);
        link.text(NOTE, &layout.note);
    },
    |link, layout| {
        if let Some(name) = link.text(NAME, LONGEST_NAME) {
            layout.name = name;
        }
        layout.note = link.text(NOTE, LONGEST_NOTE).unwrap_or_default();
    },
);
