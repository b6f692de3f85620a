//! Papers: what was typed beside an axle. They are undone with the document; files and drafts carry them, links don't.

use super::alignment::Alignment;
use super::fitting::Fitting;
use super::goal::Goal;
use super::measuring::Measuring;
use serde::{Deserialize, Serialize};

/// Everything typed beside an axle.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Papers {
    /// The alignment sheet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub alignment: Option<Box<Alignment>>,
    /// Readings that joints are to be fitted to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fitting: Option<Box<Fitting>>,
    /// What was measured on a car and is not taken yet.
    #[serde(skip_serializing_if = "Measuring::is_empty")]
    pub measuring: Measuring,
    /// What is searched for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub goal: Option<Box<Goal>>,
}

/// The sentence for papers that are none.
pub(super) fn unreadable(why: &serde_json::Error) -> String {
    format!("What was typed beside this axle can’t be read ({why}); the axle is opened without it.")
}

impl Papers {
    /// The readings that joints are to be fitted to; an empty table where none is kept.
    pub fn fitting(&self) -> Fitting {
        self.fitting.as_deref().cloned().unwrap_or_default()
    }

    /// As JSON in one line; empty for none.
    pub fn text(&self) -> String {
        // String keys, numbers and text only, which always serialise.
        if *self == Papers::default() { String::new() } else { serde_json::to_string(self).unwrap_or_default() }
    }

    /// Reads such a text; an error is a sentence.
    pub fn read(text: &str) -> Result<Papers, String> {
        if text.is_empty() { Ok(Papers::default()) } else { serde_json::from_str(text).map_err(|why| unreadable(&why)) }
    }
}
