//! Pointer and keys on the drawing → messages. No browser types.

use crate::app::{App, Hand, Message, Stand};
use crate::drawing::{Grab, P, Scene, Sheet, View};
use crate::study::space::{Held, shown};
use kernel::{PointId, Vec3};

/// One finger, pen or mouse on the drawing.
#[derive(Clone, Copy, Debug)]
pub struct Contact {
    /// Which one, as the browser counts.
    pub id: i32,
    /// Where, CSS px of the drawing.
    pub at: P,
    /// True for a finger.
    pub touch: bool,
}

/// What the pointers are doing.
#[derive(Clone, Copy, Debug, Default)]
pub enum Interaction {
    /// Nothing.
    #[default]
    Idle,
    /// Nothing; a tap has taken the wheel, and the next finger on it moves it.
    WheelTaken,
    /// One drags a thing.
    Dragging {
        /// The pointer that drags.
        pointer: i32,
        /// The thing.
        grab: Grab,
        /// The view it was grabbed in.
        view: View,
        /// From the pointer to the thing when it was grabbed, px.
        offset: P,
        /// What it had then: a joint's place on the drawing; travel or rack as z or y.
        from: Vec3,
        /// The wheel goes this far each way, mm: as its slider, or as far as it was.
        reach: f64,
    },
    /// A finger on the wheel, which no tap has taken: a swipe that begins here scrolls, turns the view or moves the paper as anywhere else.
    Tapping {
        /// The finger.
        pointer: i32,
        /// Where it came down.
        from: P,
        /// Where it is.
        last: P,
    },
    /// One drags the paper.
    Panning {
        /// The pointer that drags.
        pointer: i32,
        /// Where it was last.
        last: P,
    },
    /// One finger swipes from view to view.
    Swiping {
        /// The finger.
        pointer: i32,
        /// Where it came down.
        from: P,
        /// Where it is.
        last: P,
    },
    /// Two pinch the paper.
    Pinching {
        /// The two, where they were last.
        fingers: [(i32, P); 2],
    },
}

/// What a pointer event results in.
#[derive(Default)]
pub struct Outcome {
    /// For the page's state.
    pub messages: Vec<Message>,
    /// The paper, moved or zoomed.
    pub sheet: Option<Sheet>,
    /// The view to show in place of the present one.
    pub view: Option<View>,
    /// A tap has taken the wheel.
    pub takes_wheel: bool,
}

/// A finger that has gone this far across, px, and twice as far as down, has swiped.
const SWIPE: f64 = 60.0;

/// A finger that has gone no farther than this, px, has tapped.
const TAP: f64 = 10.0;

/// Radius of what a pointer can hit, CSS px: half of 24 for a mouse, of 44 for a finger.
pub fn reach(touch: bool) -> f64 {
    if touch { 22.0 } else { 12.0 }
}

fn sub(a: P, b: P) -> P {
    [a[0] - b[0], a[1] - b[1]]
}

impl Interaction {
    /// A pointer comes down.
    pub fn down(&mut self, contact: Contact, scene: &Scene, sheet: &Sheet, app: &App) -> Outcome {
        if let Interaction::Panning { pointer, last }
        | Interaction::Swiping { pointer, last, .. }
        | Interaction::Tapping { pointer, last, .. } = *self
            && pointer != contact.id
        {
            *self = Interaction::Pinching { fingers: [(pointer, last), (contact.id, contact.at)] };
            return Outcome::default();
        }
        if !matches!(self, Interaction::Idle | Interaction::WheelTaken) {
            return Outcome::default();
        }
        let taken = matches!(self, Interaction::WheelTaken);
        let Some(handle) = scene.hit(contact.at, reach(contact.touch)) else {
            let (pointer, last) = (contact.id, contact.at);
            if contact.touch && sheet.one_fitted().is_some() {
                *self = Interaction::Swiping { pointer, from: last, last };
                // Who scrolls or turns the view keeps the joint in hand; a tap puts it down.
                return Outcome::default();
            }
            *self = Interaction::Panning { pointer, last };
            return Outcome { messages: vec![Hand::Select(None).into()], ..Outcome::default() };
        };
        if contact.touch && handle.grab == Grab::Wheel && !taken {
            *self = Interaction::Tapping { pointer: contact.id, from: contact.at, last: contact.at };
            return Outcome::default();
        }
        let (document, study) = (&app.document, &app.study);
        let (from, takes) = match handle.grab {
            Grab::Joint(id) => (in_hand(app, id), Hand::Select(Some(id))),
            Grab::Mount(which) => (mount(app, which), Hand::SelectMount(which)),
            Grab::Box(which, held) => (corner(app, which, held), Hand::Select(None)),
            Grab::Bound(id, ends) => (app.end_of_box(id, ends).unwrap_or_default(), Hand::Select(Some(id))),
            Grab::Wheel => (Vec3::z() * document.travel, Hand::Select(None)),
            Grab::Rack => (Vec3::y() * study.good.now.position.rack, Hand::Select(None)),
        };
        *self = Interaction::Dragging {
            pointer: contact.id,
            grab: handle.grab,
            view: handle.view,
            offset: match handle.grab {
                Grab::Joint(_) | Grab::Mount(_) | Grab::Box(..) | Grab::Bound(..) => {
                    sub(sheet.project(handle.view, from), contact.at)
                }
                Grab::Wheel | Grab::Rack => contact.at,
            },
            from,
            reach: study.good.reach.max(document.travel.abs()),
        };
        Outcome { messages: vec![takes.into(), Hand::Hold.into()], ..Outcome::default() }
    }

    /// A pointer moves.
    pub fn moved(&mut self, contact: Contact, sheet: &Sheet) -> Outcome {
        let at = contact.at;
        match self {
            Interaction::Dragging { pointer, grab, view, offset, from, reach } if *pointer == contact.id => {
                let to = [at[0] + offset[0], at[1] + offset[1]];
                let message = match *grab {
                    Grab::Joint(id) => Hand::Drag(id, sheet.unproject(*view, to, *from)).into(),
                    Grab::Mount(which) => Hand::Mount(which, sheet.unproject(*view, to, *from)).into(),
                    Grab::Box(which, held) => Hand::Box(which, held, sheet.unproject(*view, to, *from)).into(),
                    Grab::Bound(id, ends) => Hand::Bound(id, ends, sheet.unproject(*view, to, *from)).into(),
                    Grab::Wheel => {
                        Stand::Travel((from.z + (offset[1] - at[1]) / sheet.scale()).clamp(-*reach, *reach)).into()
                    }
                    Grab::Rack => Stand::Rack(from.y + (at[0] - offset[0]) / sheet.scale()).into(),
                };
                Outcome { messages: vec![message], ..Outcome::default() }
            }
            Interaction::Panning { pointer, last } if *pointer == contact.id => {
                let by = sub(at, std::mem::replace(last, at));
                Outcome { sheet: Some(sheet.panned(by)), ..Outcome::default() }
            }
            Interaction::Tapping { pointer, last, .. } if *pointer == contact.id && sheet.one_fitted().is_none() => {
                let by = sub(at, std::mem::replace(last, at));
                Outcome { sheet: Some(sheet.panned(by)), ..Outcome::default() }
            }
            Interaction::Swiping { pointer, last, .. } | Interaction::Tapping { pointer, last, .. }
                if *pointer == contact.id =>
            {
                *last = at;
                Outcome::default()
            }
            Interaction::Pinching { fingers } => {
                let before = *fingers;
                for finger in fingers.iter_mut().filter(|(id, _)| *id == contact.id) {
                    finger.1 = at;
                }
                let sheet = pinched(sheet, before.map(|f| f.1), fingers.map(|f| f.1));
                Outcome { sheet: Some(sheet), ..Outcome::default() }
            }
            _ => Outcome::default(),
        }
    }

    /// A pointer goes up, or is taken away.
    pub fn up(&mut self, id: i32, sheet: &Sheet) -> Outcome {
        let mut outcome = Outcome::default();
        let mut stays = false;
        match *self {
            Interaction::Dragging { pointer, grab, .. } if pointer == id => {
                stays = grab == Grab::Wheel;
                outcome.messages.push(Hand::Release.into());
            }
            Interaction::Tapping { pointer, from, last } if pointer == id => {
                outcome = ended(sheet, sub(last, from));
                outcome.takes_wheel = !outcome.messages.is_empty();
                stays = outcome.takes_wheel;
            }
            Interaction::Swiping { pointer, from, last } if pointer == id => outcome = ended(sheet, sub(last, from)),
            Interaction::Panning { pointer, .. } if pointer == id => {}
            Interaction::Pinching { .. } => {}
            _ => return outcome,
        }
        *self = if stays { Interaction::WheelTaken } else { Interaction::Idle };
        outcome
    }
}

/// What a finger that has gone so far means: a tap puts the joint in hand down, a swipe turns the view.
fn ended(sheet: &Sheet, by: P) -> Outcome {
    let tapped = f64::hypot(by[0], by[1]) <= TAP;
    let messages = if tapped { vec![Hand::Select(None).into()] } else { Vec::new() };
    Outcome { messages, view: sheet.one_fitted().and_then(|view| swiped(view, by)), ..Outcome::default() }
}

/// The view that a swipe brings: to the left the next one, to the right the one before.
fn swiped(view: View, [across, down]: P) -> Option<View> {
    let far = across.abs() > SWIPE && across.abs() > 2.0 * down.abs();
    let at = View::ALL.iter().position(|other| *other == view)?;
    let next = if across < 0.0 { at + 1 } else { at.checked_sub(1)? };
    View::ALL.get(next).copied().filter(|_| far)
}

/// Where a joint is on the drawing; one that does not close is where it was put.
fn in_hand(app: &App, id: PointId) -> Vec3 {
    let put = app.study.trouble.as_ref().and_then(|trouble| trouble.joint).filter(|(joint, _)| *joint == id);
    put.map(|(_, at)| at).or_else(|| app.study.good.place(id)).unwrap_or_else(Vec3::zeros)
}

/// Where a mount of the subframe is.
fn mount(app: &App, which: usize) -> Vec3 {
    let subframe = app.document.layout.subframe.as_ref();
    subframe.and_then(|subframe| subframe.mounts.get(which)).map_or(Vec3::zeros(), |mount| mount.at)
}

/// Where what is held of a box is, seen from the wheel shown as a left one.
fn corner(app: &App, which: usize, held: Held) -> Vec3 {
    let one = app.document.layout.boxes.get(which);
    one.map_or(Vec3::zeros(), |one| held.place(&shown(one, app.study.good.axle.shown())))
}

/// The paper after two fingers have moved from `before` to `after`.
pub(super) fn pinched(sheet: &Sheet, before: [P; 2], after: [P; 2]) -> Sheet {
    let middle = |[a, b]: [P; 2]| [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])];
    let apart = |[a, b]: [P; 2]| f64::hypot(a[0] - b[0], a[1] - b[1]).max(1.0);
    sheet.panned(sub(middle(after), middle(before))).zoomed(middle(after), apart(after) / apart(before))
}

/// How far a key steps: 1, with Shift 10, with Alt 0.1.
pub fn step(shift: bool, alt: bool) -> f64 {
    match (shift, alt) {
        (true, _) => 10.0,
        (false, true) => 0.1,
        _ => 1.0,
    }
}

/// The movement an arrow key gives a joint in a view, mm: 1, with Shift 10, with Alt 0.1. Right and up are as on paper.
pub fn nudge(view: View, key: &str, shift: bool, alt: bool) -> Option<Vec3> {
    let (right, up) = match view {
        View::Front => (Vec3::y(), Vec3::z()),
        View::Side => (-Vec3::x(), Vec3::z()),
        View::Plan => (Vec3::y(), -Vec3::x()),
        // There arrow keys turn the view.
        View::Pictorial => return None,
    };
    let direction = match key {
        "ArrowRight" => right,
        "ArrowLeft" => -right,
        "ArrowUp" => up,
        "ArrowDown" => -up,
        _ => return None,
    };
    Some(direction * step(shift, alt))
}
