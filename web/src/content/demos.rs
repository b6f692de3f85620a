//! The six demo layouts, embedded.

use crate::document::Document;
use kernel::{Layout, PointId};
use std::sync::LazyLock;

/// Name on the page's buttons, and the layout file: from the strut to four arms, as the story is told.
pub const DEMOS: [(&str, &str); 6] = [
    ("Strut", include_str!("../../../demo-layouts/strut.json")),
    ("Two wishbones", include_str!("../../../demo-layouts/double-wishbone.json")),
    ("Strut over two arms", include_str!("../../../demo-layouts/strut-over-arms.json")),
    ("Wishbone over two arms", include_str!("../../../demo-layouts/wishbone-over-arms.json")),
    ("Four arms", include_str!("../../../demo-layouts/four-arm.json")),
    ("Five rods, unsteered", include_str!("../../../demo-layouts/five-rod-unsteered.json")),
];

/// Which of them a first visit opens.
const FIRST: usize = 4;

/// Their layouts, read once.
static LAYOUTS: LazyLock<[Option<Layout>; DEMOS.len()]> =
    LazyLock::new(|| DEMOS.map(|(_, file)| Layout::from_json(file).ok()));

/// All layouts of [`DEMOS`], in their order.
pub fn all() -> impl Iterator<Item = &'static Layout> {
    LAYOUTS.iter().flatten()
}

/// The layout of one of [`DEMOS`].
pub fn layout(index: usize) -> Option<Layout> {
    LAYOUTS.get(index)?.clone()
}

/// The layout a first visit sees: four arms.
pub fn first() -> Layout {
    // The embedded files are tested; a build in which one does not parse must not start.
    layout(FIRST).unwrap_or_else(|| panic!("the first demo is not a layout"))
}

/// What a first visit opens.
pub fn opening() -> Document {
    Document::of(first())
}

/// True for the name of a demo, which is then nobody's own work by name.
pub fn names(name: &str) -> bool {
    all().any(|layout| layout.name == name)
}

/// Prepared documents for the help page: a strut lowered by 40 mm, then with its ball joint alone moved down as far, then with the track
/// rod's end moved down too. The two amounts bring roll centre and bump steer back to what they were at the old height.
pub fn lowered() -> Vec<(&'static str, Document)> {
    const BALL_JOINT: f64 = -41.7;
    const TRACK_ROD: f64 = -40.0;
    let make = |ball_joint: f64, track_rod: f64, name: &str| {
        let mut layout = layout(0)?;
        layout.point_mut(PointId::LowerOuter)?.z += ball_joint;
        layout.point_mut(PointId::TrackRodOuter)?.z += track_rod;
        layout.name = format!("Harbour shuttle, strut, {name}");
        layout.note = String::new();
        let pinned = ["roll_centre_height_mm", "bump_steer_deg_per_mm", "toe_deg", "camber_deg"].to_vec();
        let mut document = Document { travel: 40.0, pinned, ..Document::of(layout) };
        document.set_ride(40.0);
        Some(document)
    };
    [
        ("lowered by 40 mm", 0.0, 0.0),
        ("lowered, ball joint moved down", BALL_JOINT, 0.0),
        ("lowered, ball joint and track rod joint moved down", BALL_JOINT, TRACK_ROD),
    ]
    .into_iter()
    .filter_map(|(name, ball_joint, track_rod)| Some((name, make(ball_joint, track_rod, name)?)))
    .collect()
}
