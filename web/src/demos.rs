//! The six demo layouts, embedded.

use kernel::Layout;

/// Name on the page's buttons, and the layout file: from the strut to four arms, as the story is told.
pub const DEMOS: [(&str, &str); 6] = [
    ("Strut", include_str!("../../demo-layouts/strut.json")),
    ("Two wishbones", include_str!("../../demo-layouts/double-wishbone.json")),
    ("Strut over two arms", include_str!("../../demo-layouts/strut-over-arms.json")),
    ("Wishbone over two arms", include_str!("../../demo-layouts/wishbone-over-arms.json")),
    ("Four arms", include_str!("../../demo-layouts/four-arm.json")),
    ("Five rods, unsteered", include_str!("../../demo-layouts/five-rod-unsteered.json")),
];

/// Which of them a first visit opens.
const FIRST: usize = 4;

/// The layout of one of [`DEMOS`].
pub fn layout(index: usize) -> Option<Layout> {
    DEMOS.get(index).and_then(|(_, file)| Layout::from_json(file).ok())
}

/// The layout a first visit sees: four arms.
pub fn first() -> Layout {
    // The embedded files are tested; a build in which one does not parse must not start.
    layout(FIRST).unwrap_or_else(|| panic!("the first demo is not a layout"))
}
