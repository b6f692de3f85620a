//! The sheet: where the views stand, and the one transform between car and paper, for drawing and for hits. Long because each view has its place
//! in each of the transforms.
//!
//! First angle (ISO 5456-2): side view left of the front view, forward pointing left; plan view below it, forward pointing
//! down. Side and front share the z line, front and plan the y line; one scale.

mod pictorial;
mod shared;
mod slide;

use super::shapes::P;
use super::slide::Places;
use super::{Axle, Picture, Turn};
use kernel::{State, Vec3};
use pictorial::Eye;
pub use pictorial::below;

/// The three views in their planes, and the one in space.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// Seen from ahead: y to the right, z up.
    Front,
    /// Seen from the car's left: forward points left, z up.
    Side,
    /// Seen from above: y to the right, forward points down.
    Plan,
    /// Seen from anywhere, in parallel projection.
    Pictorial,
}

impl View {
    /// Every view, in the order in which one alone is turned over.
    pub const ALL: [View; 4] = [View::Front, View::Side, View::Plan, View::Pictorial];

    /// The views that show two coordinates and can be drawn in.
    pub const PLANE: [View; 3] = [View::Front, View::Side, View::Plan];

    /// The two coordinates that a view shows, across and up: 0, 1, 2 for x, y, z; the pictorial one shows all.
    pub fn axes(self) -> Option<[usize; 2]> {
        match self {
            View::Front => Some([1, 2]),
            View::Side => Some([0, 2]),
            View::Plan => Some([1, 0]),
            View::Pictorial => None,
        }
    }
}

/// How the views are arranged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Arrangement {
    /// All three in their places; the quarter below the side view is kept free.
    Cross {
        /// Width and height of the free quarter, px.
        drawer: P,
    },
    /// Front and plan alone: a large drawer takes the side view's place.
    Two {
        /// What is kept free at the left, px.
        left: f64,
    },
    /// One view alone.
    One(View),
    /// The pictorial view alone.
    Pictorial {
        /// From where it is seen.
        turn: Turn,
        /// Whether the wheel hides what lies behind it; else it is a few rings.
        tyre: bool,
    },
    /// A slide: a view, or as many of the three as there is room for, beside the picture's readings and above what it says.
    Slide(Option<View>),
}

/// A view's place on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Window {
    pub view: View,
    pub min: P,
    pub max: P,
    /// Where its title begins.
    pub title: P,
}

/// The paper: size, views, scale.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Width and height, px.
    pub size: P,
    windows: Vec<Window>,
    scale: f64,
    /// Paper place of y = 0 and z = 0 in the front view, of x = 0 in the side view (across) and in the plan view (down).
    y0: f64,
    z0: f64,
    side_x0: f64,
    plan_x0: f64,
    details: Option<Details>,
    eye: Eye,
    /// What is free for the pictorial view beside the others, least and greatest.
    cell: Option<[P; 2]>,
    /// Of a slide: where it has what.
    places: Option<Places>,
    /// False once it has been moved or zoomed by hand.
    fitted: bool,
}

/// Where the enlarged details stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Details {
    /// Centres: at the wheel centre, at the road.
    pub centres: [P; 2],
    /// Radius of their circles, px.
    pub radius: f64,
}

/// Room above a view for its title and axis label, below it for the rows of dimensions, and at its sides, px.
const ABOVE: f64 = 46.0;
const BELOW: f64 = 62.0;
const ASIDE: f64 = 20.0;

/// Room below the plan view for the toe, px.
const PLAN_BELOW: f64 = 16.0;

/// The column of enlarged details right of the front view, px.
const DETAILS: f64 = 118.0;

/// From one detail's centre to the next, at least, px: two radii, a name of two lines and a heading.
const DETAIL_APART: f64 = 174.0;

/// The least cell in which a pictorial view is of use, and room beside the plan view for the toe, px.
const CELL: P = [400.0, 320.0];
const NAMES: f64 = 60.0;

/// Least and greatest scale, px/mm.
const SCALES: [f64; 2] = [0.02, 40.0];

/// What must be seen, mm: least and greatest x, y, z.
struct Extent {
    min: Vec3,
    max: Vec3,
}

impl Extent {
    fn of(picture: &Picture) -> Extent {
        let mut extent = Extent { min: Vec3::new(0.0, 0.0, 0.0), max: Vec3::new(0.0, 100.0, 0.0) };
        for axle in [Some(picture.axle), picture.compared].into_iter().flatten() {
            for state in [axle.rest, axle.now] {
                extent.add(&axle, state);
            }
        }
        if let Some([now, rest]) = picture.whole {
            for whole in [now, rest] {
                extent.add(&picture.axle, &whole.axle.sides[1].state);
            }
            // The right wheel is a left one's mirror image.
            extent.min.y = -extent.max.y;
        }
        extent
    }

    fn add(&mut self, axle: &Axle, state: &State) {
        let wheel = &axle.layout.wheel;
        let reach = Vec3::new(wheel.free_radius, wheel.width * 0.6, wheel.free_radius);
        let centre = state.position.pose.w;
        let joints = axle.layout.points().filter_map(|(id, _)| axle.place(id, state));
        let mounts = axle.layout.subframe.iter().flat_map(|subframe| &subframe.mounts).map(|mount| mount.at);
        for point in joints.chain(mounts).chain([centre - reach, centre + reach]) {
            self.min = self.min.inf(&point);
            self.max = self.max.sup(&point);
        }
    }
}

impl Sheet {
    /// Arranges the views on paper of a size so that the axle, at rest and now, and what it is compared with fit.
    pub fn fit(size: P, arrangement: Arrangement, picture: &Picture) -> Sheet {
        let extent = Extent::of(picture);
        let span = extent.max - extent.min;
        match arrangement {
            Arrangement::Cross { drawer } => Sheet::cross(size, drawer, DETAILS, &extent, span),
            Arrangement::Two { left } => Sheet::cross(size, [left, size[1]], DETAILS, &extent, span),
            Arrangement::One(View::Pictorial) => Sheet::pictorial(size, Turn::ISOMETRIC, true, picture),
            Arrangement::Pictorial { turn, tyre } => Sheet::pictorial(size, turn, tyre, picture),
            Arrangement::One(view) => Sheet::one(size, view, &extent, span),
            Arrangement::Slide(view) => Sheet::slide(size, view, picture),
        }
    }

    /// A sheet with nothing on it.
    fn empty() -> Sheet {
        Sheet {
            size: [0.0, 0.0],
            windows: Vec::new(),
            scale: 1.0,
            y0: 0.0,
            z0: 0.0,
            side_x0: 0.0,
            plan_x0: 0.0,
            details: None,
            eye: Eye::none(),
            cell: None,
            places: None,
            fitted: true,
        }
    }

    /// The cross, with so much room right of the front view for details; beside a drawer as high as the paper there is no side view.
    fn cross(size: P, drawer: P, aside: f64, extent: &Extent, span: Vec3) -> Sheet {
        let [width, height] = size;
        let both = extent.min.y < 0.0;
        let side = drawer[1] < height;
        let across = width - drawer[0] - 2.0 * ASIDE - if both { 0.0 } else { aside };
        let beside = [(drawer[0] - 2.0 * ASIDE) / span.x, (height - drawer[1] - ABOVE - BELOW) / span.z];
        let front = [across / span.y, (height - 2.0 * ABOVE - BELOW - PLAN_BELOW) / (span.z + span.x)];
        let scales = beside.into_iter().filter(|_| side).chain(front);
        let scale = scales.fold(SCALES[1], f64::min).max(SCALES[0]);
        let seam = f64::max(ABOVE + span.z * scale + BELOW, height - drawer[1]);
        let seam = f64::min(seam, height - span.x * scale - ABOVE - PLAN_BELOW);
        let left = drawer[0];
        let middle = left / 2.0 + scale * f64::midpoint(extent.min.x, extent.max.x);
        // Where the sheet is wide, the plan view leaves what it does not need to the pictorial view.
        let corner = [left + 2.0 * ASIDE + NAMES + span.y * scale, seam];
        let cell = (!both && width - corner[0] >= CELL[0] && height - seam >= CELL[1]).then_some([corner, size]);
        let plan = cell.map_or(width, |[corner, _]| corner[0]);
        let window = |view, min: P, max: P, title| Window { view, min, max, title };
        let windows = [
            window(View::Side, [0.0, 0.0], [left, height - drawer[1]], [24.0, 24.0]),
            window(View::Front, [left, 0.0], [width, seam], [left + 28.0, 24.0]),
            window(View::Plan, [left, seam], [plan, height], [left + 28.0, seam + 20.0]),
        ];
        Sheet {
            size,
            windows: windows.into_iter().filter(|window| side || window.view != View::Side).collect(),
            scale,
            y0: if both { f64::midpoint(left, width) } else { left + 12.0 },
            z0: seam - BELOW + f64::min(extent.min.z, 0.0) * scale,
            side_x0: middle,
            plan_x0: f64::midpoint(seam + ABOVE, height - PLAN_BELOW)
                - scale * f64::midpoint(extent.min.x, extent.max.x),
            // Both wheels stand in the middle: there may be no room beside them.
            details: (!both || across - span.y * scale >= 2.0 * DETAILS).then(|| Details {
                centres: [0.39 * seam, f64::max(0.76 * seam, 0.39 * seam + DETAIL_APART)]
                    .map(|y| [width - DETAILS / 2.0, y]),
                radius: 51.0,
            }),
            cell,
            ..Sheet::empty()
        }
    }

    fn one(size: P, view: View, extent: &Extent, span: Vec3) -> Sheet {
        let [width, height] = size;
        let down = height - ABOVE - BELOW;
        let (wide, high) = match view {
            View::Front => (span.y, span.z),
            View::Side => (span.x, span.z),
            View::Plan => (span.y, span.x),
            View::Pictorial => return Sheet::empty(),
        };
        let scale = f64::min((width - 2.0 * ASIDE) / wide, down / high).clamp(SCALES[0], SCALES[1]);
        let spare = (width - wide * scale) / 2.0;
        let middle = scale * f64::midpoint(extent.min.x, extent.max.x);
        Sheet {
            size,
            windows: vec![Window { view, min: [0.0, 0.0], max: size, title: [0.0, 0.0] }],
            scale,
            y0: if extent.min.y < 0.0 { width / 2.0 } else { spare },
            z0: height - BELOW + f64::min(extent.min.z, 0.0) * scale,
            side_x0: width / 2.0 + middle,
            plan_x0: (height + ABOVE - BELOW) / 2.0 - middle,
            details: (view == View::Front && width >= 380.0 && extent.min.y == 0.0)
                .then_some(Details { centres: [52.0, 142.0].map(|x| [x, ABOVE + 82.0]), radius: 41.0 }),
            ..Sheet::empty()
        }
    }

    /// Paper px per mm.
    pub fn scale(&self) -> f64 {
        self.scale
    }

    /// The view shown, where it is one alone and as it was fitted.
    pub fn one_fitted(&self) -> Option<View> {
        if let ([window], true) = (&self.windows[..], self.fitted) { Some(window.view) } else { None }
    }

    /// The place of a view on paper, where it is shown: least and greatest.
    pub fn area(&self, view: View) -> Option<[P; 2]> {
        self.windows.iter().find(|window| window.view == view).map(|window| [window.min, window.max])
    }

    /// What is free for the pictorial view beside the others, least and greatest.
    pub fn cell(&self) -> Option<[P; 2]> {
        self.cell
    }

    pub(super) fn windows(&self) -> &[Window] {
        &self.windows
    }

    /// The enlarged details, where there is room for them.
    pub(super) fn details(&self) -> Option<Details> {
        self.details
    }

    /// The paper enlarged by `factor` about a place on it.
    pub fn zoomed(&self, about: P, factor: f64) -> Sheet {
        let scale = (self.scale * factor).clamp(SCALES[0], SCALES[1]);
        let factor = scale / self.scale;
        let from = |centre: f64, place: f64| centre + (place - centre) * factor;
        let mut sheet = Sheet { scale, fitted: false, ..self.clone() };
        for window in &self.windows {
            // Where the pointer is, the paper stays under it; the other views are enlarged about their middles.
            let inside = (0..2).all(|i| (window.min[i]..=window.max[i]).contains(&about[i]));
            let centre: P =
                std::array::from_fn(|i| if inside { about[i] } else { f64::midpoint(window.min[i], window.max[i]) });
            match window.view {
                View::Front => (sheet.y0, sheet.z0) = (from(centre[0], self.y0), from(centre[1], self.z0)),
                View::Side => sheet.side_x0 = from(centre[0], self.side_x0),
                View::Plan => sheet.plan_x0 = from(centre[1], self.plan_x0),
                View::Pictorial => sheet.eye.at = [0, 1].map(|i| from(centre[i], self.eye.at[i])),
            }
            if inside && window.view == View::Side {
                sheet.z0 = from(about[1], self.z0);
            }
            if inside && window.view == View::Plan {
                sheet.y0 = from(about[0], self.y0);
            }
        }
        sheet
    }

    /// The paper moved: across moves front and plan together, down front and side.
    pub fn panned(&self, [dx, dy]: P) -> Sheet {
        Sheet {
            y0: self.y0 + dx,
            z0: self.z0 + dy,
            side_x0: self.side_x0 + dx,
            plan_x0: self.plan_x0 + dy,
            eye: Eye { at: [self.eye.at[0] + dx, self.eye.at[1] + dy], ..self.eye },
            fitted: false,
            ..self.clone()
        }
    }

    /// A point of the car on paper.
    pub fn project(&self, view: View, point: Vec3) -> P {
        let (x, y, z) = (point.x * self.scale, point.y * self.scale, point.z * self.scale);
        match view {
            View::Front => [self.y0 + y, self.z0 - z],
            View::Side => [self.side_x0 - x, self.z0 - z],
            View::Plan => [self.y0 + y, self.plan_x0 + x],
            View::Pictorial => self.eye.project(self.scale, point),
        }
    }

    /// A point of the car from a place on paper; the coordinate that the view does not show is kept from `depth`.
    pub fn unproject(&self, view: View, [right, down]: P, depth: Vec3) -> Vec3 {
        let y = (right - self.y0) / self.scale;
        let z = (self.z0 - down) / self.scale;
        match view {
            View::Front => Vec3::new(depth.x, y, z),
            View::Side => Vec3::new((self.side_x0 - right) / self.scale, depth.y, z),
            View::Plan => Vec3::new((down - self.plan_x0) / self.scale, y, depth.z),
            View::Pictorial => self.eye.unproject(self.scale, [right, down], depth),
        }
    }
}
