//! A scene: lines, circles, texts and handles on paper; and the pen that makes one. Long because a text is measured here too.

use super::ink::Ink;
use super::lettering::width;
use super::projection::View;
pub use super::shapes::P;
use crate::document::goal::Ends;
use crate::study::space::Held;
use kernel::PointId;

/// A drawing, ready for canvas or SVG.
#[derive(Clone, Debug)]
pub struct Scene {
    /// Width and height, px.
    pub size: P,
    /// Painted in this order.
    pub items: Vec<Item>,
    /// What can be grabbed, the wheel and the rack before the joints that lie over them.
    pub handles: Vec<Handle>,
}

/// Something painted.
#[derive(Clone, Debug)]
pub enum Item {
    /// An outline, filled first and then stroked.
    Path {
        /// Its steps.
        steps: Vec<Step>,
        /// Fill.
        fill: Option<Fill>,
        /// Stroke.
        stroke: Option<Stroke>,
    },
    /// A text.
    Text(Text),
    /// Items of which only what lies in an area shows.
    Clip {
        /// The area.
        area: Area,
        /// The items.
        items: Vec<Item>,
    },
}

/// Part of an outline.
#[derive(Clone, Copy, Debug)]
#[allow(missing_docs, reason = "the names are the meaning")]
pub enum Step {
    Move(P),
    Line(P),
    Circle { centre: P, radius: f64 },
    Close,
}

/// An area to clip to.
#[derive(Clone, Copy, Debug)]
#[allow(missing_docs, reason = "the names are the meaning")]
pub enum Area {
    Rect { min: P, max: P },
    Circle { centre: P, radius: f64 },
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Colour.
    pub ink: Ink,
    /// Width, px.
    pub width: f64,
    /// Dash and gap lengths, px.
    pub dash: &'static [f64],
    /// 0 to 1.
    pub opacity: f64,
    /// Round ends.
    pub round: bool,
}

impl Stroke {
    /// A continuous line.
    pub fn line(ink: Ink, width: f64) -> Stroke {
        Stroke { ink, width, dash: &[], opacity: 1.0, round: false }
    }

    /// Width of a narrow line, px.
    pub const NARROW: f64 = 0.75;

    /// The continuous narrow line.
    pub fn narrow(ink: Ink) -> Stroke {
        Stroke::line(ink, Stroke::NARROW)
    }

    /// The continuous wide line: outlines.
    pub fn wide() -> Stroke {
        Stroke::line(Ink::Ink, 1.35)
    }

    /// The dashed line: hidden outlines.
    pub fn hidden() -> Stroke {
        Stroke { dash: &[4.2, 2.2], ..Stroke::line(Ink::Ink, 1.0) }
    }

    /// The long-dash double-dot line in one tint: what is laid over.
    pub fn compared() -> Stroke {
        Stroke { dash: &[11.0, 2.5, 1.5, 2.5, 1.5, 2.5], ..Stroke::line(Ink::Compared, 1.2) }
    }

    /// The long-dash dot narrow line: wheel axis, wheel plane, centre plane.
    pub fn centre() -> Stroke {
        Stroke { dash: &[16.0, 3.0, 2.0, 3.0], ..Stroke::line(Ink::Ink2, 0.8) }
    }
}

/// How an outline is filled.
#[derive(Clone, Copy, Debug)]
pub struct Fill {
    /// Colour.
    pub ink: Ink,
    /// 0 to 1.
    pub opacity: f64,
}

impl Fill {
    /// Opaque.
    pub fn solid(ink: Ink) -> Fill {
        Fill { ink, opacity: 1.0 }
    }
}

/// Which point of a text stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names are the meaning")]
pub enum Anchor {
    Start,
    Middle,
    End,
}

/// A line of text.
#[derive(Clone, Debug)]
pub struct Text {
    /// The anchor's place on the base line.
    pub at: P,
    /// The text.
    pub text: String,
    /// Height, px.
    pub size: f64,
    /// Bold.
    pub bold: bool,
    /// Which point of it stands at `at`.
    pub anchor: Anchor,
    /// Colour.
    pub ink: Ink,
    /// Surrounded by a rim of paper.
    pub halo: bool,
}

impl Text {
    /// Drawing text.
    pub fn at(at: P, text: &str) -> Text {
        Text { at, text: text.into(), size: 12.5, bold: false, anchor: Anchor::Start, ink: Ink::Ink, halo: true }
    }

    /// Its width, px, from the face's advance widths; the same wherever the drawing is shown.
    pub fn width(&self) -> f64 {
        width(&self.text, self.size) * if self.bold { 1.02 } else { 1.0 }
    }

    /// The box it takes: left, top, right, bottom.
    pub fn bounds(&self) -> [f64; 4] {
        let width = self.width();
        let left = match self.anchor {
            Anchor::Start => self.at[0],
            Anchor::Middle => self.at[0] - width / 2.0,
            Anchor::End => self.at[0] - width,
        };
        [left, self.at[1] - 0.78 * self.size, left + width, self.at[1] + 0.22 * self.size]
    }
}

/// What can be grabbed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grab {
    /// A joint or an end of the spring.
    Joint(PointId),
    /// A mount of the subframe.
    Mount(usize),
    /// A box, by its middle or a corner.
    Box(usize, Held),
    /// Ends of the box in which a search may move a joint.
    Bound(PointId, Ends),
    /// The wheel: travel.
    Wheel,
    /// The rack: steering.
    Rack,
}

/// Where a thing can be grabbed.
#[derive(Clone, Debug)]
pub struct Handle {
    /// The thing.
    pub grab: Grab,
    /// The view it is shown in.
    pub view: View,
    /// Where, or (with more than one point) the outline inside which.
    pub outline: Vec<P>,
}

impl Scene {
    /// An empty sheet.
    pub fn new(size: P) -> Scene {
        Scene { size, items: Vec::new(), handles: Vec::new() }
    }

    /// What a pointer takes: the nearest joint within `radius`, else the rack, else the wheel under it.
    pub fn hit(&self, at: P, radius: f64) -> Option<&Handle> {
        let distance = |handle: &Handle| match handle.outline[..] {
            [point] => f64::hypot(point[0] - at[0], point[1] - at[1]),
            _ => f64::INFINITY,
        };
        let joint = self.handles.iter().min_by(|a, b| distance(a).total_cmp(&distance(b)));
        joint.filter(|handle| distance(handle) <= radius).or_else(|| {
            let inside = |handle: &&Handle| handle.outline.len() > 2 && super::shapes::inside(&handle.outline, at);
            self.handles.iter().rev().find(inside)
        })
    }
}

/// Makes items.
#[derive(Default)]
pub(super) struct Pen {
    pub items: Vec<Item>,
    /// It draws narrow lines only and fills nothing.
    fine: bool,
}

impl Pen {
    /// Draws what lies beneath something else: in narrow lines only, where that is so.
    pub fn fine(&mut self, fine: bool, draw: impl FnOnce(&mut Pen)) {
        let before = std::mem::replace(&mut self.fine, fine);
        draw(self);
        self.fine = before;
    }

    /// A line through points; what is not a number is not drawn.
    pub fn line(&mut self, points: &[P], stroke: Stroke) {
        self.path(points, false, None, Some(stroke));
    }

    /// A closed outline.
    pub fn shape(&mut self, points: &[P], fill: Option<Fill>, stroke: Option<Stroke>) {
        self.path(points, true, fill, stroke);
    }

    /// A circle.
    pub fn disc(&mut self, centre: P, radius: f64, fill: Option<Fill>, stroke: Option<Stroke>) {
        if centre.iter().all(|x| x.abs() < FAR) {
            self.outline(vec![Step::Circle { centre, radius }], fill, stroke);
        }
    }

    /// A text.
    pub fn text(&mut self, text: Text) {
        if text.at.iter().all(|x| x.abs() < FAR) {
            self.items.push(Item::Text(text));
        }
    }

    fn path(&mut self, points: &[P], close: bool, fill: Option<Fill>, stroke: Option<Stroke>) {
        let drawn = points.iter().flatten().all(|x| x.abs() < FAR) && points.len() > 1;
        if drawn {
            let mut steps: Vec<Step> = points.iter().map(|p| Step::Line(*p)).collect();
            steps[0] = Step::Move(points[0]);
            if close {
                steps.push(Step::Close);
            }
            self.outline(steps, fill, stroke);
        }
    }

    fn outline(&mut self, steps: Vec<Step>, fill: Option<Fill>, stroke: Option<Stroke>) {
        let (fill, stroke) = if self.fine {
            let stroke = stroke.or(fill.map(|fill| Stroke::narrow(fill.ink)));
            (None, stroke.map(|stroke| Stroke { width: Stroke::NARROW.min(stroke.width), ..stroke }))
        } else {
            (fill, stroke)
        };
        self.items.push(Item::Path { steps, fill, stroke });
    }
}

/// Farther than this from the sheet's corner nothing is drawn, px; NaN is farther.
const FAR: f64 = 1e5;
