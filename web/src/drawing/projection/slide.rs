//! How a slide is arranged: one view, or the three of them, beside the readings and above what is said.

use super::super::Turn;
use super::super::slide::{Places, Slide};
use super::{ASIDE, Arrangement, Extent, P, Picture, SCALES, Sheet, View};
use kernel::Vec3;

/// From this much paper on there are three views, px; on less the front view is alone.
const THREE: P = [560.0, 400.0];

/// Where the title of a view that is alone begins, px.
const TITLE: P = [20.0, 24.0];

impl Sheet {
    /// A slide with a view, or as many as there is room for, `zoom` times larger than to fit about what is pointed at.
    pub(super) fn slide(size: P, view: Option<View>, picture: &Picture) -> Sheet {
        let none = Slide::default();
        let slide = picture.slide.unwrap_or(&none);
        let places = slide.places(size);
        let paper = places.drawing;
        let three = paper[0] >= THREE[0] && paper[1] >= THREE[1];
        let sheet = match view {
            Some(View::Pictorial) => Sheet::pictorial(paper, Turn::ISOMETRIC, true, picture),
            None if three => Sheet::three(paper, picture),
            view => Sheet::fit(paper, Arrangement::One(view.unwrap_or(View::Front)), picture),
        };
        let sheet = match picture.pointed() {
            Some(place) if slide.zoom > 1.0 => sheet.closer(place, slide.zoom),
            _ => sheet,
        };
        let mut sheet = Sheet { size, details: None, places: Some(places), cell: None, ..sheet };
        if let [window] = &mut sheet.windows[..] {
            // Here no button names a view that is alone.
            window.title = TITLE;
        }
        sheet
    }

    /// Three views in their places; what is free below the side view stays so.
    fn three(size: P, picture: &Picture) -> Sheet {
        let extent = Extent::of(picture);
        let span = extent.max - extent.min;
        // As wide and high as the side view is beside the two others, which have the same scale.
        let [width, height] = size;
        let left = width * (span.x / (span.x + span.y)).clamp(0.3, 0.7);
        let free = height * (span.x / (span.x + span.z)).clamp(0.3, 0.7);
        Sheet::cross(size, [left, free], 2.0 * ASIDE, &extent, span)
    }

    /// The paper enlarged about a place of the car, which moves towards each view's middle.
    fn closer(&self, place: Vec3, factor: f64) -> Sheet {
        let scale = (self.scale * factor).clamp(SCALES[0], SCALES[1]);
        let factor = scale / self.scale;
        let mut sheet = Sheet { scale, ..self.clone() };
        for window in &self.windows {
            let at = self.project(window.view, place);
            let middle = [0, 1].map(|i| f64::midpoint(window.min[i], window.max[i]));
            // As far towards the middle as what is beside it is lost from sight.
            let to = [0, 1].map(|i| middle[i] + (at[i] - middle[i]) / factor);
            let from = |place: f64, i: usize| to[i] + (place - at[i]) * factor;
            match window.view {
                View::Front => (sheet.y0, sheet.z0) = (from(self.y0, 0), from(self.z0, 1)),
                View::Side => (sheet.side_x0, sheet.z0) = (from(self.side_x0, 0), from(self.z0, 1)),
                View::Plan => (sheet.y0, sheet.plan_x0) = (from(self.y0, 0), from(self.plan_x0, 1)),
                View::Pictorial => sheet.eye.at = [0, 1].map(|i| from(self.eye.at[i], i)),
            }
        }
        sheet
    }

    /// Where a slide has what.
    pub fn places(&self) -> Option<Places> {
        self.places
    }

    /// On the way from one slide to another of the same views.
    #[must_use]
    pub fn towards(&self, other: &Sheet, part: f64) -> Sheet {
        let views = |sheet: &Sheet| sheet.windows.iter().map(|window| window.view).collect::<Vec<_>>();
        if views(self) != views(other) || self.size != other.size {
            return other.clone();
        }
        let mix = |a: f64, b: f64| a + (b - a) * part;
        let both = |a: P, b: P| [0, 1].map(|i| mix(a[i], b[i]));
        let mut sheet = other.clone();
        sheet.scale = mix(self.scale, other.scale);
        (sheet.y0, sheet.z0) = (mix(self.y0, other.y0), mix(self.z0, other.z0));
        (sheet.side_x0, sheet.plan_x0) = (mix(self.side_x0, other.side_x0), mix(self.plan_x0, other.plan_x0));
        sheet.eye.at = both(self.eye.at, other.eye.at);
        sheet.eye.pivot = self.eye.pivot + (other.eye.pivot - self.eye.pivot) * part;
        sheet
    }
}
