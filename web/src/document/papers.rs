//! Papers: what was typed beside an axle. They are undone with the document; files and drafts carry them, links don't.

use super::Document;
use super::alignment::Alignment;
use kernel::Layout;
use serde::{Deserialize, Serialize};

/// Everything typed beside an axle.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Papers {
    /// The alignment sheet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub alignment: Option<Box<Alignment>>,
}

/// What files call them: a part beside a layout's own, which the kernel keeps and does not read.
const PART: &str = "papers";

/// The sentence for papers that are none.
fn unreadable(why: &serde_json::Error) -> String {
    format!("What was typed beside this axle can’t be read ({why}); the axle is opened without it.")
}

impl Papers {
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

impl Document {
    /// The file that the page saves: the layout's, the papers among its parts.
    pub fn to_file(&self) -> String {
        let mut layout = self.layout.clone();
        if self.papers != Papers::default() {
            layout.other.insert(PART.into(), serde_json::to_value(&self.papers).unwrap_or_default());
        }
        layout.to_json()
    }

    /// The document of such a file, with what there is to say about it.
    pub fn of_file(mut layout: Layout) -> (Document, Vec<String>) {
        let papers = layout.other.remove(PART).map(serde_json::from_value).transpose();
        let mut document = Document::of(layout);
        match papers {
            Ok(papers) => {
                document.papers = papers.unwrap_or_default();
                (document, Vec::new())
            }
            Err(why) => (document, vec![unreadable(&why)]),
        }
    }
}
