//! The file that the page saves and opens: a layout's, with what was typed beside the axle as one of its parts.

use super::papers::{Papers, unreadable};
use super::saved::Document;
use kernel::Layout;

/// What files call the papers: a part beside a layout's own, which the kernel keeps and does not read.
const PART: &str = "papers";

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
