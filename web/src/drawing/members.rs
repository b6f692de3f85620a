//! Rods, strut, spring, rack and carrier, and their joints. Long because each kind of part has its strokes.

use super::labels::{Labels, Rank};
use super::scene::{Anchor, Fill, Grab, Handle, P, Pen, Stroke, Text};
use super::shapes::{add, capsule, grown, hull, inside_part, length, mix, sub};
use super::{Axle, Ink, Paper, Picture, View, tyre, wheel};
use kernel::{BarState, Guide, Member, PointId, SpringOn, State, Vec3};

/// A rod between two joints, or a wishbone's leg.
#[derive(Clone, Copy)]
pub struct Rod {
    pub member: Member,
    pub name: &'static str,
    pub ink: Ink,
    pub inner: Vec3,
    pub outer: Vec3,
    ids: [PointId; 2],
}

impl Rod {
    /// Its ends if one of its joints stood elsewhere.
    pub fn moved(&self, id: PointId, at: Vec3) -> Option<[Vec3; 2]> {
        match self.ids {
            [inner, _] if inner == id => Some([at, self.outer]),
            [_, outer] if outer == id => Some([self.inner, at]),
            _ => None,
        }
    }
}

/// The rods and wishbone legs at a state.
pub fn rods(axle: &Axle, state: &State) -> Vec<Rod> {
    use PointId::*;
    let layout = axle.layout;
    let mut rods = Vec::with_capacity(5);
    let mut push = |member, name, ink, ids: [PointId; 2]| {
        if let [Some(inner), Some(outer)] = ids.map(|id| axle.place(id, state)) {
            rods.push(Rod { member, name, ink, inner, outer, ids });
        }
    };
    let wishbone = |guide: &Guide| matches!(guide, Guide::Wishbone { .. });
    let (front, rear) =
        if wishbone(&layout.lower) { (LowerOuter, LowerOuter) } else { (LowerFrontOuter, LowerRearOuter) };
    let names = if wishbone(&layout.lower) { ["lower wishbone", ""] } else { ["lower front arm", "lower rear arm"] };
    push(Member::LowerFront, names[0], Ink::Lower, [LowerFrontInner, front]);
    push(Member::LowerRear, names[1], Ink::Lower, [LowerRearInner, rear]);
    let (front, rear) =
        if wishbone(&layout.upper) { (UpperOuter, UpperOuter) } else { (UpperFrontOuter, UpperRearOuter) };
    let names = if wishbone(&layout.upper) { ["upper wishbone", ""] } else { ["upper front arm", "upper rear arm"] };
    push(Member::UpperFront, names[0], Ink::Upper, [UpperFrontInner, front]);
    push(Member::UpperRear, names[1], Ink::Upper, [UpperRearInner, rear]);
    push(Member::TrackRod, "track rod", Ink::Steering, [TrackRodInner, TrackRodOuter]);
    rods
}

/// The joints that span the carrier, and the wheel centre.
pub fn carrier(axle: &Axle, state: &State) -> Vec<Vec3> {
    let joints = axle.layout.points().filter(|(id, _)| id.on_carrier() && *id != PointId::ShaftOuter);
    joints.filter_map(|(id, _)| axle.place(id, state)).collect()
}

/// The spring's two ends.
pub(super) fn spring(axle: &Axle, state: &State) -> [Vec3; 2] {
    axle.linkage.spring().ends(&state.position.pose)
}

pub fn strut(axle: &Axle, state: &State) -> Option<[Vec3; 2]> {
    Some([axle.place(PointId::StrutTop, state)?, axle.place(PointId::StrutFoot, state)?])
}

/// True if the tyre hides a point that lies inside its outline in this view.
pub(super) fn hidden(paper: &Paper, state: &State, axle: &Axle, point: Vec3) -> bool {
    let from_centre = point - state.position.pose.w;
    let radius = axle.layout.wheel.free_radius;
    let nearest = match paper.view {
        View::Pictorial => return paper.sheet.shows_tyre() && wheel::hides(axle, state, paper.turn(), point),
        View::Side => return from_centre.y < axle.layout.wheel.width / 2.0,
        View::Front => (radius * radius - from_centre.z * from_centre.z).max(0.0).sqrt(),
        View::Plan => (radius * radius - from_centre.x * from_centre.x).max(0.0).sqrt(),
    };
    paper.depth(from_centre) < nearest
}

/// Half the width of a rod, px.
pub(super) const HALF: f64 = 3.1;

/// Everything but the joints, by depth.
pub fn draw(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, tyre: &[P], lettered: bool) {
    let (axle, state) = (&picture.axle, picture.axle.now);
    let rods = by_depth(paper, rods(axle, state));
    draw_carrier(pen, paper, axle, state, tyre);
    half_shaft(pen, paper, axle, state);
    anti_roll_bar(pen, paper, axle, state);
    rocker(pen, paper, axle, state);
    rack(pen, labels, paper, picture, state);
    let [top, foot] = spring(axle, state);
    let spring_first = paper.view == View::Plan;
    if spring_first {
        draw_spring(pen, paper, axle, state);
    }
    for rod in &rods {
        bar(pen, paper, axle, state, rod, tyre);
        if lettered {
            rod_name(labels, paper, axle, rod);
        }
    }
    if !spring_first {
        draw_spring(pen, paper, axle, state);
    }
    if lettered {
        name(labels, paper, "spring", mix(paper.at(top), paper.at(foot), 0.35));
    }
}

/// What guides a wheel where a load has moved it: carrier, strut and rods, by depth.
pub fn moved(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State, rods: Vec<Rod>, strut: Option<[Vec3; 2]>) {
    let tyre = tyre::outline(paper, axle, state);
    draw_carrier(pen, paper, axle, state, &tyre);
    if let Some(ends) = strut {
        draw_strut(pen, ends.map(|end| paper.at(end)));
    }
    for rod in by_depth(paper, rods) {
        bar(pen, paper, axle, state, &rod, &tyre);
        for end in [rod.inner, rod.outer] {
            pen.ball(paper.at(end));
        }
    }
}

fn by_depth(paper: &Paper, mut rods: Vec<Rod>) -> Vec<Rod> {
    rods.sort_unstable_by(|a, b| paper.depth(a.inner + a.outer).total_cmp(&paper.depth(b.inner + b.outer)));
    rods
}

/// One rod: solid where it is seen, dashed and pale where the tyre hides it.
fn bar(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State, rod: &Rod, tyre: &[P]) {
    let (a, b) = (paper.at(rod.inner), paper.at(rod.outer));
    let solid =
        |pen: &mut Pen, a: P, b: P| pen.shape(&capsule(a, b, HALF), Some(Fill::solid(rod.ink)), Some(Stroke::wide()));
    let covered = inside_part(tyre, a, b).filter(|(from, to)| {
        let middle = rod.inner + (rod.outer - rod.inner) * f64::midpoint(*from, *to);
        hidden(paper, state, axle, middle)
    });
    match covered {
        None => solid(pen, a, b),
        Some((from, to)) => {
            let pale = Some(Fill { ink: rod.ink, opacity: 0.5 });
            pen.shape(&capsule(mix(a, b, from), mix(a, b, to), HALF), pale, Some(Stroke::hidden()));
            if from > 0.01 {
                solid(pen, a, mix(a, b, from));
            }
            if to < 0.99 {
                solid(pen, mix(a, b, to), b);
            }
        }
    }
}

fn draw_carrier(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State, tyre: &[P]) {
    let points: Vec<P> = carrier(axle, state).into_iter().map(|p| paper.at(p)).collect();
    let outline = grown(&hull(points), 5.2);
    pen.shape(&outline, Some(Fill { ink: Ink::Carrier, opacity: 0.55 }), None);
    let mut seen: Vec<P> = Vec::new();
    for i in 0..outline.len() {
        let (a, b) = (outline[i], outline[(i + 1) % outline.len()]);
        match inside_part(tyre, a, b) {
            None => seen.extend([a, b]),
            Some((from, to)) => {
                pen.line(&[mix(a, b, from), mix(a, b, to)], Stroke::hidden());
                if from > 0.0 {
                    seen.extend([a, mix(a, b, from)]);
                }
                if to < 1.0 {
                    seen.extend([mix(a, b, to), b]);
                }
            }
        }
    }
    for edge in seen.chunks_exact(2) {
        pen.line(edge, Stroke::wide());
    }
}

/// The rack's housing, fixed to the body, with its rod and the arrow that says it can be moved.
fn rack(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, state: &State) {
    let axle = &picture.axle;
    let Some(inner) = axle.place(PointId::TrackRodInner, state).filter(|_| axle.layout.rack.is_some()) else { return };
    let at = paper.at(inner);
    if paper.view == View::Side {
        let corner = [5.5, 5.5];
        let (a, b) = (sub(at, corner), add(at, corner));
        pen.shape(&[a, [b[0], a[1]], b, [a[0], b[1]]], Some(Fill::solid(Ink::Steering)), Some(Stroke::wide()));
        return;
    }
    let [from, to] = housing(paper, axle);
    pen.line(&[at, [to[0], at[1]]], Stroke::line(Ink::Ink, 2.4));
    let shape = [[from[0], at[1] - 5.5], [to[0], at[1] - 5.5], [to[0], at[1] + 5.5], [from[0], at[1] + 5.5]];
    pen.shape(&shape, Some(Fill::solid(Ink::Steering)), Some(Stroke::wide()));
    let middle = f64::midpoint(from[0], to[0]);
    pen.double_arrow([middle - 20.0, at[1] - 12.0], [middle + 20.0, at[1] - 12.0], Ink::Selected);
    let text = format!("rack {}", picture.units.signed_length(state.position.rack));
    labels.put(Rank::Member, Text { ink: Ink::Ink2, ..Text::at([from[0], at[1] + 20.0], &text) });
}

/// The housing's two ends on paper, across: from near the centre plane to short of the joint's inmost place.
pub fn housing(paper: &Paper, axle: &Axle) -> [P; 2] {
    housing_ends(axle).map(|p| paper.at(p))
}

/// The same in the car.
pub(super) fn housing_ends(axle: &Axle) -> [Vec3; 2] {
    let at_rest = axle.layout.track_rod.inner;
    let stroke = axle.layout.rack.as_ref().map_or(0.0, |rack| rack.travel);
    let end = f64::max(at_rest.y - stroke - 20.0, at_rest.y * 0.3);
    [Vec3::new(at_rest.x, at_rest.y * 0.12, at_rest.z), Vec3::new(at_rest.x, end, at_rest.z)]
}

/// The half-shaft: a bar in the carrier's tone, behind everything that guides.
pub(super) fn half_shaft(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State) {
    let ends = [PointId::ShaftInner, PointId::ShaftOuter].map(|id| axle.place(id, state).map(|p| paper.at(p)));
    let [Some(inner), Some(outer)] = ends else { return };
    pen.shape(&capsule(inner, outer, 2.4), Some(Fill::solid(Ink::Carrier)), Some(Stroke::line(Ink::Ink2, 0.9)));
}

/// The anti-roll bar's lever and drop link, and the bar's stub to the centre plane.
pub(super) fn anti_roll_bar(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State) {
    let Some(at) = BarState::at(axle.layout, axle.linkage, state) else { return };
    let Some(pivot) = axle.layout.point(PointId::BarPivot) else { return };
    let bearing = Vec3::new(pivot.x, at.lever.y, pivot.z);
    let line = [Vec3::new(pivot.x, 0.0, pivot.z), bearing, at.lever].map(|p| paper.at(p));
    pen.line(&line, Stroke { round: true, ..Stroke::line(Ink::Ink, 5.0) });
    pen.line(&line, Stroke { round: true, ..Stroke::line(Ink::Carrier, 2.6) });
    pen.line(&[at.lever, at.link].map(|p| paper.at(p)), Stroke::line(Ink::Ink, 2.0));
}

/// The rocker as a plate, and its rod.
pub(super) fn rocker(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State) {
    let Some(at) = axle.linkage.spring().rocker_at(&state.position.pose) else { return };
    let foot = axle.linkage.spring().foot(&state.position.pose);
    pen.shape(&capsule(paper.at(at.rod), paper.at(foot), HALF), Some(Fill::solid(Ink::Strut)), Some(Stroke::wide()));
    let plate = grown(&hull([at.pivot, at.rod, at.spring].map(|p| paper.at(p)).to_vec()), 4.0);
    pen.shape(&plate, Some(Fill::solid(Ink::Carrier)), Some(Stroke::wide()));
}

/// The tube is the lower half of the strut, the rod comes out of it; the guide sits at its mouth.
fn draw_strut(pen: &mut Pen, [mount, end]: [P; 2]) {
    let mouth = mix(mount, end, 0.5);
    pen.line(&[mount, mouth], Stroke::line(Ink::Ink, 2.6));
    pen.shape(&capsule(mouth, end, 5.0), Some(Fill::solid(Ink::Strut)), Some(Stroke::wide()));
    let guide = capsule(mix(mount, end, 0.48), mix(mount, end, 0.53), 7.0);
    pen.shape(&guide, Some(Fill::solid(Ink::Paper)), Some(Stroke::wide()));
}

pub(super) fn draw_spring(pen: &mut Pen, paper: &Paper, axle: &Axle, state: &State) {
    let [top, foot] = spring(axle, state).map(|p| paper.at(p));
    let on_strut = axle.layout.spring.on == SpringOn::Strut;
    if let Some(ends) = strut(axle, state) {
        draw_strut(pen, ends.map(|end| paper.at(end)));
    }
    if paper.view == View::Plan {
        pen.disc(top, 8.0, Some(Fill::solid(Ink::Strut)), Some(Stroke::wide()));
    } else if on_strut && axle.layout.spring.top.is_none() {
        pen.spring(top, mix(top, foot, 0.55), 5, 12.0);
    } else {
        pen.spring(top, foot, 8, 9.0);
    }
}

/// A member's name on the empty body side, with a leader that ends in a dot on the member.
fn name(labels: &mut Labels, paper: &Paper, name: &str, on: P) {
    if paper.view == View::Side {
        return;
    }
    labels.put_with_leader(Rank::Member, Text { ink: Ink::Ink2, anchor: Anchor::End, ..Text::at(on, name) }, on);
}

/// A rod's name: in plan beside its inner joint; in front view, where a pair lies together, once for both.
fn rod_name(labels: &mut Labels, paper: &Paper, axle: &Axle, rod: &Rod) {
    let (inner, outer) = (paper.at(rod.inner), paper.at(rod.outer));
    let arms = |guide: &Guide| matches!(guide, Guide::Arms { .. });
    let pair = match rod.member {
        Member::LowerFront if arms(&axle.layout.lower) => "lower arms",
        Member::UpperFront if arms(&axle.layout.upper) => "upper arms",
        Member::LowerRear | Member::UpperRear => "",
        _ => rod.name,
    };
    match paper.view {
        View::Plan if rod.member == Member::TrackRod => name(labels, paper, rod.name, mix(inner, outer, 0.2)),
        View::Plan => {
            let at = [inner[0] - 24.0, inner[1] + 4.0];
            labels.put(Rank::Member, Text { ink: Ink::Ink2, anchor: Anchor::End, ..Text::at(at, rod.name) });
        }
        _ if !pair.is_empty() => name(labels, paper, pair, mix(inner, outer, 0.3)),
        _ => {}
    }
}

/// The rest position behind a moved one: centre lines of the rods and the carrier's outline.
pub fn ghost(pen: &mut Pen, paper: &Paper, axle: &Axle) {
    let thin = Stroke::line(Ink::Ghost, 0.8);
    for rod in rods(axle, axle.rest) {
        pen.line(&[paper.at(rod.inner), paper.at(rod.outer)], thin);
    }
    pen.shape(&hull(carrier(axle, axle.rest).into_iter().map(|p| paper.at(p)).collect()), None, Some(thin));
}

/// The axle laid over: centre lines in one tint, long-dash double-dot.
pub fn compared(pen: &mut Pen, labels: &mut Labels, paper: &Paper, axle: &Axle) {
    let line = Stroke::compared();
    for rod in rods(axle, axle.now) {
        pen.line(&[paper.at(rod.inner), paper.at(rod.outer)], line);
        pen.disc(paper.at(rod.inner), 3.0, None, Some(Stroke::line(Ink::Compared, 1.2)));
    }
    pen.line(&spring(axle, axle.now).map(|p| paper.at(p)), line);
    pen.shape(&hull(carrier(axle, axle.now).into_iter().map(|p| paper.at(p)).collect()), None, Some(line));
    if paper.view == View::Front {
        let top = paper.at(axle.linkage.spring().top);
        let text = format!("compared: {}", axle.layout.name);
        labels.put(
            Rank::Compared,
            Text { bold: true, ink: Ink::Compared, ..Text::at([top[0] + 12.0, top[1] + 4.0], &text) },
        );
    }
}

/// Joint symbols and the handles under them.
pub fn joints(pen: &mut Pen, labels: &mut Labels, paper: &Paper, picture: &Picture, handles: &mut Vec<Handle>) {
    let axle = &picture.axle;
    if axle.layout.rack.is_some() && paper.view != View::Side {
        let ([from, to], at) = (housing(paper, axle), paper.at(axle.layout.track_rod.inner)[1]);
        let outline = vec![[from[0], at - 14.0], [to[0], at - 14.0], [to[0], at + 14.0], [from[0], at + 14.0]];
        handles.push(Handle { grab: Grab::Rack, view: paper.view, outline });
    }
    for (id, _) in axle.layout.points() {
        let Some(point) = picture.place(id) else { continue };
        let at = paper.at(point);
        joint(pen, paper, picture, id, at);
        if id == PointId::WheelCentre {
            continue;
        }
        labels.joint(at);
        handles.push(Handle { grab: Grab::Joint(id), view: paper.view, outline: vec![at] });
    }
}

/// One joint's symbol.
pub(super) fn joint(pen: &mut Pen, paper: &Paper, picture: &Picture, id: PointId, at: P) {
    let body = match paper.view {
        View::Side => [0.0, -1.0],
        View::Pictorial => inboard(paper),
        View::Front | View::Plan => [-1.0, 0.0],
    };
    match id {
        PointId::WheelCentre => return pen.disc(at, 2.2, Some(Fill::solid(Ink::Ink)), None),
        PointId::TrackRodInner if picture.axle.layout.rack.is_some() => pen.ball(at),
        PointId::ShaftInner | PointId::RockerRod | PointId::RockerSpring => pen.ball(at),
        PointId::BarLever | PointId::BarLink => pen.ball(at),
        PointId::SpringTop | PointId::StrutTop => {
            pen.body_joint(at, if paper.view == View::Plan { [-1.0, 0.0] } else { [0.0, -1.0] })
        }
        id if id.on_carrier() || id == PointId::SpringFoot => pen.ball(at),
        _ => pen.body_joint(at, body),
    }
    if let Some(point) = picture.place(id) {
        picture.mark_freed(pen, paper, id, point);
    }
    if picture.locks.iter().any(|lock| lock.point == id) {
        pen.disc(at, 2.0, Some(Fill::solid(Ink::Ink)), None);
    }
}

/// The way to the centre plane on paper; up where it is seen end-on.
pub(super) fn inboard(paper: &Paper) -> P {
    let way = sub(paper.at(-Vec3::y()), paper.at(Vec3::zeros()));
    if length(way) > 0.3 * paper.sheet.scale() { way } else { [0.0, -1.0] }
}
