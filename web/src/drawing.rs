//! State + pose → scene: what the canvas, the SVG, the print and the tests all show.
//!
//! Paper units are CSS px, x to the right, y down. No browser types here. The drawing is fixed to the body: body joints
//! stay, wheel and road rise with travel. Looks: after ISO 128, 129 and 5456-2.

mod axis;
mod axle;
mod beam;
mod both;
mod deflected;
mod details;
mod dimensions;
mod fault;
mod forces;
mod goal;
mod in_hand;
mod ink;
mod labels;
mod lettering;
mod members;
mod moved;
mod numbered;
mod panel;
mod pictorial;
mod projection;
mod scene;
mod shapes;
mod shifts;
mod sketch;
mod slide;
mod space;
mod stress;
mod subframe;
pub mod svg;
mod symbols;
mod taught;
mod turn;
mod tyre;
mod underlay;
mod wheel;

pub use axle::Axle;
pub use beam::beam;
pub use fault::Fault;
pub use goal::{boxes, holds, offered};
pub use ink::{Ink, Theme};
pub use lettering::wrapped;
pub use numbered::numbered;
pub use projection::{Arrangement, Sheet, View};
pub use scene::{Anchor, Area, Fill, Grab, Handle, Item, P, Scene, Step, Stroke, Text};
pub use sketch::sketch;
pub use slide::{Line, Places, Slide, letters};
pub use space::depth;
pub use symbols::{projection_symbol, scale_bar};
pub use turn::Turn;
pub use underlay::{Laid, Placed, Underlay, Unfit, seen};

use crate::document::lesson::{Answer, Lesson};
use crate::document::story::Stress;
use crate::document::{Hands, Lock};
use crate::study::{giving::Deflected, loaded::Loaded, space::Drawn};
use crate::text::number::Units;
use in_hand::{projection_lines, selected};
use kernel::frame::mirror;
use kernel::{PointId, Vec3, Whole};
use labels::{Labels, Rank};
use projection::Window;
use scene::Pen;

/// What is to be drawn.
#[derive(Clone, Copy)]
pub struct Picture<'a> {
    /// The axle.
    pub axle: Axle<'a>,
    /// The axle that it is, with what it has different from its design.
    pub built: &'a kernel::Axle,
    /// What a hand on a joint keeps.
    pub hands: Hands,
    /// The axle laid over it.
    pub compared: Option<Axle<'a>>,
    /// What the axle carries, to be drawn on it.
    pub loads: Option<&'a Loaded>,
    /// How it gives way then.
    pub deflected: Option<&'a Deflected>,
    /// The room that the wheel takes up, while its pane is shown.
    pub space: Option<Drawn<'a>>,
    /// The whole axle, now and at rest, if both wheels are shown.
    pub whole: Option<&'a [Whole; 2]>,
    /// The right wheel then, as a left one.
    pub right: Option<Axle<'a>>,
    /// The whole axle along the curves, if they run over roll: for the roll centre's path.
    pub path: &'a [(f64, Whole)],
    /// Columns of the pinned readings: what some of them need is drawn on demand.
    pub pinned: &'a [&'static str],
    /// The lesson and its answer: what they hide is not lettered, and what may be moved is marked.
    pub lesson: Option<(&'a Lesson, &'a Answer)>,
    /// What a slide has beside its drawing.
    pub slide: Option<&'a Slide>,
    /// The joint in hand.
    pub selected: Option<PointId>,
    /// The mount of the subframe in hand, counted from 0; none while a joint is.
    pub mount: Option<usize>,
    /// What lengths and angles are lettered in.
    pub units: Units,
    /// Points, or coordinates of points, that can't be moved.
    pub locks: &'a [Lock],
    /// What does not close; then `axle` is the last one that did.
    pub fault: Option<Fault>,
}

/// Below this height of a view only the axis, the selected joint and the details are lettered, px.
const LETTERED: f64 = 300.0;

/// Draws the sheet.
pub fn draw(picture: &Picture, sheet: &Sheet) -> Scene {
    let mut scene = Scene::new(sheet.size);
    for window in sheet.windows() {
        if window.view == View::Pictorial {
            pictorial::draw(picture, sheet, window, &mut scene);
            panel::cover(picture, [window.min, window.max], &mut scene.items);
            continue;
        }
        let mut pen = Pen::default();
        let mut labels = Labels::new(window.min, window.max);
        if window.view == View::Front {
            details::keep_out(sheet, &mut labels);
        }
        view(picture, sheet, window, &mut pen, &mut labels, &mut scene.handles);
        labels.letter(&mut pen);
        stress::draw(&mut pen, &Paper { sheet, view: window.view, window, mirrored: false }, picture);
        panel::cover(picture, [window.min, window.max], &mut pen.items);
        scene.items.push(Item::Clip { area: Area::Rect { min: window.min, max: window.max }, items: pen.items });
    }
    details::draw(picture, sheet, &mut scene);
    panel::draw(picture, sheet, &mut scene);
    scene.items.splice(0..0, projection_lines(picture, sheet).items);
    scene
}

impl Picture<'_> {
    /// The place of the car that a slide is about: the joint in hand, else the emphasised member's middle, else the wheel centre.
    fn pointed(&self) -> Option<Vec3> {
        let member = match self.slide?.stress {
            Some(Stress::Member(member)) => {
                members::rods(&self.axle, self.axle.now).into_iter().find(|rod| rod.member == member)
            }
            _ => None,
        };
        let member = member.map(|rod| (rod.inner + rod.outer) / 2.0);
        self.selected.and_then(|id| self.place(id)).or(member).or(Some(self.axle.now.position.pose.w))
    }

    /// Where a point is drawn: where it was put if it does not close there, else where the pose has it.
    fn place(&self, id: PointId) -> Option<Vec3> {
        let put = self.fault.and_then(|fault| fault.joint).filter(|(joint, _)| *joint == id);
        put.map(|(_, at)| at).or_else(|| self.axle.place(id, self.axle.now))
    }
}

/// One view, from what lies behind to what lies before.
fn view(
    picture: &Picture,
    sheet: &Sheet,
    window: &Window,
    pen: &mut Pen,
    labels: &mut Labels,
    handles: &mut Vec<Handle>,
) {
    let paper = Paper { sheet, view: window.view, window, mirrored: false };
    let Axle { rest, now, .. } = picture.axle;
    let lettered = window.max[1] - window.min[1] >= LETTERED || window.view == View::Plan;
    let tyre = tyre::outline(&paper, &picture.axle, now);
    title(&paper, labels);
    if let (Some(whole), View::Front) = (picture.whole, window.view) {
        both::road(pen, labels, &paper, picture, whole);
    } else {
        wheel::road(pen, labels, &paper, picture);
    }
    // What a load deflects lies beneath what gives way.
    let beneath = picture.deflected.is_some();
    deflected::wheels(pen, &paper, picture);
    if let (Some(right), View::Front | View::Plan) = (picture.right, window.view) {
        pen.fine(beneath, |pen| both::right_wheel(pen, &paper, picture, right));
    }
    dimensions::centre_plane(pen, &paper);
    pen.fine(beneath, |pen| wheel::draw(pen, &paper, &picture.axle, now, &tyre));
    members::ghost(pen, &paper, &picture.axle);
    if now.travel != rest.travel || now.position.rack != 0.0 {
        wheel::ghost(pen, &paper, &picture.axle, rest);
        axis::ghost(pen, &paper, &picture.axle);
    }
    pen.fine(beneath, |pen| {
        subframe::outline(pen, labels, &paper, picture);
        members::draw(pen, labels, &paper, picture, &tyre, lettered);
    });
    deflected::draw(pen, labels, &paper, picture);
    axis::draw(pen, labels, &paper, picture);
    if let Some(compared) = &picture.compared {
        wheel::compared(pen, &paper, compared);
        members::compared(pen, labels, &paper, compared);
        axis::compared(pen, &paper, compared);
    }
    pen.fine(beneath, |pen| {
        subframe::bushes(pen, &paper, &picture.axle);
        members::joints(pen, labels, &paper, picture, handles);
        subframe::mounts(pen, labels, &paper, picture, handles);
    });
    space::draw(pen, labels, &paper, picture, handles);
    forces::draw(pen, labels, &paper, picture);
    wheel::handle(pen, &paper, &picture.axle, &tyre, handles);
    if let Some(whole) = picture.whole.filter(|_| window.view != View::Side) {
        both::centres(pen, labels, &paper, picture, whole);
    } else if lettered {
        dimensions::draw(pen, labels, &paper, picture);
    }
    if window.view == View::Side && picture.pinned.contains(&both::SIDE_ARM) {
        both::side_arm(pen, labels, &paper, picture);
    }
    shifts::draw(pen, &paper, picture);
    selected(pen, labels, &paper, picture);
    fault::draw(pen, &paper, picture);
}

/// A view on the sheet: what turns points of the car into points of the paper.
#[derive(Clone, Copy)]
struct Paper<'a> {
    sheet: &'a Sheet,
    view: View,
    window: &'a Window,
    /// What is drawn is a left wheel that stands for the right one.
    mirrored: bool,
}

impl Paper<'_> {
    fn at(&self, point: Vec3) -> P {
        self.sheet.project(self.view, self.placed(point))
    }

    /// Where a point is in the car: what stands for the right wheel is mirrored.
    fn placed(&self, point: Vec3) -> Vec3 {
        if self.mirrored { mirror(point) } else { point }
    }

    /// From where what is drawn is seen, if it is seen from anywhere: a mirror's image from the other side.
    fn turn(&self) -> Turn {
        let turn = self.sheet.turn();
        if self.mirrored { turn.from_the_other_side() } else { turn }
    }

    /// How near a point is to whoever looks: larger is nearer.
    fn depth(&self, point: Vec3) -> f64 {
        match self.view {
            View::Front => point.x,
            View::Side => point.y,
            View::Plan => point.z,
            View::Pictorial => self.turn().axes()[2].dot(&point),
        }
    }
}

/// A view's title; one view alone is named by the button that chose it.
fn title(paper: &Paper, labels: &mut Labels) {
    if paper.sheet.windows().len() == 1 && paper.sheet.places().is_none() {
        return;
    }
    let (name, from) = match paper.view {
        View::Front => ("Front view", "from ahead"),
        View::Side => ("Side view", "from the left"),
        View::Plan => ("Plan view", "from above"),
        View::Pictorial => return,
    };
    let [x, y] = paper.window.title;
    let title = Text { bold: true, size: 13.0, ..Text::at([x, y], name) };
    labels.put(Rank::Fixed, Text { ink: Ink::Ink2, ..Text::at([x + title.width() + 8.0, y], from) });
    labels.put(Rank::Fixed, title);
    if paper.view == View::Front {
        // There the page says what can be grabbed.
        labels.keep_out([x, y + 6.0, x + HINT, y + 26.0]);
    }
}

/// Width of the page's hint under the front view's title, px.
const HINT: f64 = 180.0;
