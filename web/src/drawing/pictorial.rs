//! The pictorial view: the axle in parallel projection (ISO 5456-3), from the same parts and with the same lines as the three other views.
//!
//! Hidden lines: of two parts the nearer is painted over the farther, which is interrupted there; what the wheel hides is dashed and pale, as in the
//! other views. Lines that explain (steering axis, wheel axis, places where arms come closest) are never interrupted by the wheel. With the wheel
//! as rings alone nothing is hidden by it.

mod order;
mod words;

use super::labels::Labels;
use super::projection::Window;
use super::scene::{Area, Fill, Grab, Handle, Item, P, Pen, Scene, Stroke};
use super::shapes::{capsule, grown, hull, length, mix, sub};
use super::{
    Axle, Ink, Paper, Picture, Sheet, axis, deflected, fault, forces, in_hand, members, space, stress, subframe, tyre,
    wheel,
};
use kernel::{PointId, State, Vec3};
use order::{Part, ordered};

/// Draws the view. Long because what lies over what is said here, a line each.
pub fn draw(picture: &Picture, sheet: &Sheet, window: &Window, scene: &mut Scene) {
    let paper = Paper { sheet, view: window.view, window, mirrored: false };
    let (mut pen, mut labels) = (Pen::default(), Labels::new(window.min, window.max));
    let Axle { rest, now, .. } = picture.axle;
    words::title(&mut labels, &paper);
    words::keep_out(&mut labels, &paper);
    words::triad(&mut pen, &mut labels, &paper, picture.right.is_some());
    road(&mut pen, &paper, picture);
    let outline = tyre::outline(&paper, &picture.axle, now);
    // What a load deflects lies beneath what gives way.
    let beneath = picture.deflected.is_some();
    deflected::wheels(&mut pen, &paper, picture);
    let right = right(picture);
    let mirrored = Paper { mirrored: true, ..paper };
    let mut wheels = vec![(paper, picture.axle, outline.clone())];
    wheels.extend(right.map(|right| (mirrored, right.axle, tyre::outline(&mirrored, &right.axle, right.axle.now))));
    let depth = |(paper, axle, _): &(Paper, Axle, Vec<P>)| paper.depth(axle.now.position.pose.w);
    // The farther one first.
    wheels.sort_by(|one, other| depth(one).total_cmp(&depth(other)));
    for (paper, axle, outline) in &wheels {
        pen.fine(beneath, |pen| wheel::in_space(pen, paper, axle, axle.now, outline));
    }
    if now.travel != rest.travel || now.position.rack != 0.0 {
        members::ghost(&mut pen, &paper, &picture.axle);
        wheel::ghost(&mut pen, &paper, &picture.axle, rest);
        axis::ghost(&mut pen, &paper, &picture.axle);
    }
    subframe::outline(&mut pen, &mut labels, &paper, picture);
    let mut parts = parts(&paper, picture);
    parts.extend(right.iter().flat_map(|right| self::parts(&mirrored, right)));
    pen.items.extend(ordered(&paper, parts));
    for (paper, axle, _) in &wheels {
        axis::marks(&mut pen, paper, axle);
    }
    if let Some(compared) = &picture.compared {
        wheel::compared(&mut pen, &paper, compared);
        members::compared(&mut pen, &mut labels, &paper, compared);
        axis::compared(&mut pen, &paper, compared);
    }
    for (paper, axle, _) in &wheels {
        words::lines(&mut labels, paper, axle);
    }
    handles(&mut labels, &paper, picture, scene);
    deflected::draw(&mut pen, &mut labels, &paper, picture);
    forces::draw(&mut pen, &mut labels, &paper, picture);
    words::names(&mut pen, &mut labels, &paper, picture, &outline);
    plumb(&mut pen, &paper, picture);
    in_hand::selected(&mut pen, &mut labels, &paper, picture);
    fault::draw(&mut pen, &paper, picture);
    labels.letter(&mut pen);
    stress::draw(&mut pen, &paper, picture);
    scene.items.push(Item::Clip { area: Area::Rect { min: window.min, max: window.max }, items: pen.items });
}

/// The right wheel and what guides it, where both are shown: drawn as the left one is, through a mirror, without names and handles.
fn right<'a>(picture: &Picture<'a>) -> Option<Picture<'a>> {
    let axle = picture.right?;
    Some(Picture { axle, selected: None, mount: None, fault: None, loads: None, right: None, whole: None, ..*picture })
}

/// Lines of the road, mm apart.
const GRID: f64 = 100.0;

/// The road under the wheel as a grid from the centre plane outwards, with the centre plane's trace; under both wheels from one to the other.
fn road(pen: &mut Pen, paper: &Paper, picture: &Picture) {
    let axle = &picture.axle;
    let (w, wheel) = (axle.now.position.pose.w, &axle.layout.wheel);
    // With the body rolled the road is not level in the car.
    let slope = picture.whole.map_or(0.0, |[now, _]| {
        let [left, right] = [0, 1].map(|i| now.axle.sides[i].contact);
        (left.z - right.z) / (left.y - right.y)
    });
    let beneath = w + axle.now.attitude.contact;
    let at = |x: f64, y: f64| paper.at(Vec3::new(x, y, beneath.z + slope * (y - beneath.y)));
    let reach = wheel.free_radius * 1.5;
    let [x0, x1] = [(w.x - reach) / GRID, (w.x + reach) / GRID].map(|k| k.round() as i32);
    let y1 = ((w.y + wheel.width) / GRID).ceil() as i32 + 1;
    let y0 = if picture.whole.is_some() { -y1 } else { 0 };
    let line = Stroke::line(Ink::Rule, 0.8);
    let mm = |k: i32| f64::from(k) * GRID;
    for k in x0..=x1 {
        pen.line(&[at(mm(k), mm(y0)), at(mm(k), mm(y1))], line);
    }
    for k in (y0..=y1).filter(|k| *k != 0) {
        pen.line(&[at(mm(x0), mm(k)), at(mm(x1), mm(k))], line);
    }
    pen.line(&[at(mm(x0), 0.0), at(mm(x1), 0.0)], Stroke::centre());
}

/// Everything of one wheel's corner that lies before or behind something else.
fn parts(paper: &Paper, picture: &Picture) -> Vec<Part> {
    let (axle, state) = (&picture.axle, picture.axle.now);
    let beneath = picture.deflected.is_some();
    let mut parts = vec![carrier(paper, axle, state, beneath)];
    let mut add = |fine: bool, lines: Vec<[Vec3; 2]>, half: f64, draw: &dyn Fn(&mut Pen)| {
        let mut pen = Pen::default();
        pen.fine(fine, |pen| draw(pen));
        parts.push(Part { lines, half, solid: Vec::new(), nearer: 0.0, items: pen.items });
    };
    for rod in members::rods(axle, state) {
        add(beneath, vec![[rod.inner, rod.outer]], members::HALF, &|pen| {
            bar(pen, paper, axle, [rod.inner, rod.outer], rod.ink)
        });
    }
    let bent = picture.space.into_iter().filter(|_| !paper.mirrored).flat_map(|drawn| &drawn.now.bent);
    for (member, line) in bent {
        let stretches = line.windows(2).map(|ends| [ends[0], ends[1]]).collect();
        add(beneath, stretches, members::HALF, &|pen| space::bent(pen, paper, *member, line));
    }
    if let [Some(inner), Some(outer)] = [PointId::ShaftInner, PointId::ShaftOuter].map(|id| axle.place(id, state)) {
        add(beneath, vec![[inner, outer]], 2.4, &|pen| members::half_shaft(pen, paper, axle, state));
    }
    if let Some(at) = kernel::BarState::at(axle.layout, axle.linkage, state) {
        add(beneath, vec![[at.lever, at.link]], 2.6, &|pen| members::anti_roll_bar(pen, paper, axle, state));
    }
    if let Some(at) = axle.linkage.spring().rocker_at(&state.position.pose) {
        let foot = axle.linkage.spring().foot(&state.position.pose);
        add(beneath, vec![[at.rod, foot], [at.pivot, at.spring]], 4.0, &|pen| members::rocker(pen, paper, axle, state));
    }
    let lines = [Some(members::spring(axle, state)), members::strut(axle, state)].into_iter().flatten().collect();
    add(beneath, lines, 6.0, &|pen| members::draw_spring(pen, paper, axle, state));
    if axle.layout.rack.is_some() {
        let [from, to] = members::housing_ends(axle);
        let ends = [to + (from - to).cap_magnitude(HOUSING), to];
        let inner = axle.place(PointId::TrackRodInner, state).unwrap_or(ends[1]);
        add(beneath, vec![[ends[1], inner]], 1.2, &|pen| {
            pen.line(&[ends[1], inner].map(|p| paper.at(p)), Stroke::line(Ink::Ink, 2.4))
        });
        let [a, b] = ends.map(|p| paper.at(p));
        let housing = capsule(a, b, 5.5);
        add(beneath, vec![ends], 5.5, &|pen| {
            pen.shape(&housing, Some(Fill::solid(Ink::Steering)), Some(Stroke::wide()))
        });
    }
    for [from, to] in axis::prolonged(axle, state) {
        add(false, vec![[from, to]], 0.8, &|pen| {
            pen.line(&[from, to].map(|p| paper.at(p)), Stroke::line(Ink::Ink, 0.8))
        });
    }
    if let Some(line) = axis::drawn(axle, state) {
        add(false, vec![line], 3.0, &|pen| axis::line(pen, line.map(|p| paper.at(p))));
    }
    let images = if picture.whole.is_some() { 2 } else { 1 };
    let boxes = axle.layout.boxes.iter().filter(|_| !paper.mirrored);
    for [from, to] in boxes.flat_map(|one| space::placed(one, picture).into_iter().take(images)) {
        parts.push(boxed(paper, from, to));
    }
    parts.extend(joints(paper, picture));
    for part in &mut parts {
        part.lines.iter_mut().flatten().chain(&mut part.solid).for_each(|point| *point = paper.placed(*point));
    }
    parts
}

/// So much of the rack's housing is shown, mm.
const HOUSING: f64 = 140.0;

/// A joint counts so much nearer than the rods that meet in it, mm.
const JOINT: f64 = 12.0;

/// The joints' symbols; bushes are rings under them.
fn joints(paper: &Paper, picture: &Picture) -> Vec<Part> {
    let one = |(id, _): (PointId, Vec3)| {
        let (at, mut pen) = (picture.place(id)?, Pen::default());
        let beneath = picture.deflected.is_some();
        pen.fine(beneath, |pen| members::joint(pen, paper, picture, id, paper.at(at)));
        Some(Part { nearer: JOINT, ..Part::along([at, at], 5.0, pen.items) })
    };
    picture.axle.layout.points().filter_map(one).collect()
}

/// The handles of the joints: they can be taken in hand.
fn handles(labels: &mut Labels, paper: &Paper, picture: &Picture, scene: &mut Scene) {
    for (id, _) in picture.axle.layout.points() {
        let Some(at) = picture.place(id).filter(|_| id != PointId::WheelCentre).map(|at| paper.at(at)) else {
            continue;
        };
        labels.joint(at);
        scene.handles.push(Handle { grab: Grab::Joint(id), view: paper.view, outline: vec![at] });
    }
}

/// Parts into which a line is cut to find out where it is hidden; where it begins to be is then halved so often.
const CUTS: u32 = 32;
const HALVINGS: u32 = 6;

/// The stretches of a line, as parts of its length, with whether the wheel hides them.
fn stretches(hidden: impl Fn(f64) -> bool) -> Vec<(f64, f64, bool)> {
    let at = |i: u32| f64::from(i) / f64::from(CUTS);
    let mut found = vec![(0.0, 1.0, hidden(at(0)))];
    for i in 0..CUTS {
        let last = found.len() - 1;
        let was = found[last].2;
        if hidden(at(i + 1)) != was {
            let (mut same, mut other) = (at(i), at(i + 1));
            for _ in 0..HALVINGS {
                let middle = f64::midpoint(same, other);
                if hidden(middle) == was { same = middle } else { other = middle }
            }
            found[last].1 = other;
            found.push((other, 1.0, !was));
        }
    }
    found
}

/// A rod: solid where it is seen, dashed and pale where the wheel hides it.
fn bar(pen: &mut Pen, paper: &Paper, axle: &Axle, [inner, outer]: [Vec3; 2], ink: Ink) {
    let (a, b) = (paper.at(inner), paper.at(outer));
    for (from, to, hidden) in stretches(|t| members::hidden(paper, axle.now, axle, inner + (outer - inner) * t)) {
        let shape = capsule(mix(a, b, from), mix(a, b, to), members::HALF);
        let (fill, stroke) = if hidden { (0.5, Stroke::hidden()) } else { (1.0, Stroke::wide()) };
        pen.shape(&shape, Some(Fill { ink, opacity: fill }), Some(stroke));
    }
}

/// The carrier: the hull of its joints, as in the other views; each edge is hidden or seen as the joints at its ends are.
fn carrier(paper: &Paper, axle: &Axle, state: &State, beneath: bool) -> Part {
    let solid = members::carrier(axle, state);
    let corners: Vec<(P, Vec3)> = solid.iter().map(|corner| (paper.at(*corner), *corner)).collect();
    let outline = grown(&hull(corners.iter().map(|(at, _)| *at).collect()), 5.2);
    let nearest = |at: P| {
        let near = corners.iter().min_by(|(a, _), (b, _)| length(sub(*a, at)).total_cmp(&length(sub(*b, at))));
        near.map_or(Vec3::zeros(), |(_, corner)| *corner)
    };
    let mut pen = Pen::default();
    pen.fine(beneath, |pen| {
        pen.shape(&outline, Some(Fill { ink: Ink::Carrier, opacity: 0.55 }), None);
        for i in 0..outline.len() {
            let (a, b) = (outline[i], outline[(i + 1) % outline.len()]);
            let (from, to) = (nearest(a), nearest(b));
            for (start, end, hidden) in stretches(|t| members::hidden(paper, state, axle, from + (to - from) * t)) {
                let stroke = if hidden { Stroke::hidden() } else { Stroke::wide() };
                pen.line(&[mix(a, b, start), mix(a, b, end)], stroke);
            }
        }
    });
    Part { lines: Vec::new(), half: 0.0, solid, nearer: 0.0, items: pen.items }
}

/// A box of the car that stands in the way; its three edges behind are left out.
fn boxed(paper: &Paper, from: Vec3, to: Vec3) -> Part {
    let corner = |i: usize| Vec3::from_fn(|axis, _| if (i >> axis) & 1 == 0 { from[axis] } else { to[axis] });
    let solid: Vec<Vec3> = (0..8).map(corner).collect();
    let farthest =
        (0..8).min_by(|a, b| paper.depth(corner(*a)).total_cmp(&paper.depth(corner(*b)))).unwrap_or_default();
    let mut pen = Pen::default();
    let outline = hull(solid.iter().map(|corner| paper.at(*corner)).collect());
    pen.shape(&outline, Some(Fill { ink: Ink::Panel, opacity: 0.7 }), None);
    for (i, axis) in (0..8_usize).flat_map(|i| (0..3).map(move |axis| (i, axis))) {
        let other = i | (1 << axis);
        if other != i && i != farthest && other != farthest {
            pen.line(&[corner(i), corner(other)].map(|p| paper.at(p)), Stroke::line(Ink::Ink2, 0.9));
        }
    }
    Part { lines: Vec::new(), half: 0.0, solid, nearer: 0.0, items: pen.items }
}

/// The joint in hand, down to the road: where it stands in space.
fn plumb(pen: &mut Pen, paper: &Paper, picture: &Picture) {
    let Some((_, point)) = in_hand::in_hand(picture) else { return };
    let foot = Vec3::new(point.x, point.y, picture.axle.road(picture.axle.now));
    let thin = Stroke::narrow(Ink::Selected);
    pen.line(&[point, foot].map(|p| paper.at(p)), thin);
    for way in [Vec3::x(), Vec3::y()] {
        pen.line(&[foot - way * PLUMB, foot + way * PLUMB].map(|p| paper.at(p)), thin);
    }
}

/// Half the cross on the road under the joint in hand, mm.
const PLUMB: f64 = 18.0;
