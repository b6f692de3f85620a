//! What a pane lays over the drawing.

use super::Drawing;
use crate::app::App;
use crate::browser::page::{LaidOver, Page};
use crate::drawing::{Scene, Sheet, boxes, holds, offered};

impl Drawing {
    /// Draws what a pane lays over. A slide has nothing of it.
    pub(super) fn lay_over(&self, page: &Page, app: &App, sheet: &Sheet, scene: &mut Scene) {
        let over = if page.projects() { LaidOver::default() } else { page.laid_over() };
        let mut squares = String::new();
        if over.boxes {
            let (goal, axle) = (app.goal(), app.picture().axle);
            scene.items.extend(boxes(&goal, &axle, sheet));
            if let Some(point) = app.selected {
                let (items, handles) = holds(&goal, &axle, sheet, point, app.bound);
                scene.items.extend(items);
                let here = handles.iter().filter(|handle| handle.view == page.view());
                squares =
                    here.map(|handle| format!("{:.1} {:.1};", handle.outline[0][0], handle.outline[0][1])).collect();
                scene.handles.extend(handles);
            }
        }
        let solved = over.offered.as_ref().and_then(|layout| app.previewed(layout));
        if let Some(solved) = &solved {
            scene.items.extend(offered(solved, sheet));
        }
        self.squares.show(&squares);
        self.over.show(match (over.boxes, solved.is_some()) {
            (_, true) => "boxes and an offer",
            (true, false) => "boxes",
            (false, false) => "",
        });
    }
}
