//! Which wheel is told, and what the axle has different from its design: words that go with whatever is passed on.

use crate::app::App;
use crate::text::change;
use kernel::{Layout, LeftOrRight};

/// The wheel that is told.
pub fn wheel(app: &App) -> &'static str {
    match app.study.good.axle.shown() {
        LeftOrRight::Left => "Left wheel",
        LeftOrRight::Right => "Right wheel, as if it were a left one",
    }
}

/// What a layout has different from its design; empty for a design.
pub fn changes(layout: &Layout) -> String {
    let changes = change::changes(layout);
    if changes.is_empty() { String::new() } else { format!("Changes: {}.", changes.join("; ")) }
}

/// Both in a line.
pub fn as_built(app: &App) -> String {
    format!("{}. {}", wheel(app), changes(&app.document.layout)).trim_end().to_string()
}

/// The same where there is something to say: nothing of a left wheel as it was designed.
pub fn unusual(app: &App) -> Option<String> {
    let usual = app.study.good.axle.shown() == LeftOrRight::Left && app.document.layout.changes.iter().next().is_none();
    (!usual).then(|| as_built(app))
}
