//! The drawing of a measuring sheet: the axle at rest with a number at every point, and the planes that coordinates are measured from.

use super::labels::{Labels, apart};
use super::scene::{Anchor, Area, Item, P, Pen, Scene, Stroke, Text};
use super::{Axle, Ink, Paper, Picture, Sheet, View, dimensions, members, tyre, wheel};
use kernel::Vec3;

/// Distances from a point at which its number is tried, px; from the second on a line ties it to the point.
const RINGS: [f64; 4] = [13.0, 21.0, 30.0, 42.0];

/// Directions in which it is tried, the best first: level, upright, aslant.
const WAYS: [P; 8] =
    [[1.0, 0.0], [0.0, -1.0], [-1.0, 0.0], [0.0, 1.0], [0.7, -0.7], [-0.7, -0.7], [0.7, 0.7], [-0.7, 0.7]];

/// A number keeps this far from every point's symbol, px.
const CLEAR: f64 = 5.0;

/// Draws it: points are numbered from 1, in the order of the layout's points, in every view.
pub fn numbered(picture: &Picture, sheet: &Sheet) -> Scene {
    let mut scene = Scene::new(sheet.size);
    for window in sheet.windows() {
        let paper = Paper { sheet, view: window.view, window, mirrored: false };
        let mut pen = Pen::default();
        axle(&mut pen, &paper, picture);
        planes(&mut pen, &paper);
        numbers(&mut pen, &paper, &picture.axle);
        scene.items.push(Item::Clip { area: Area::Rect { min: window.min, max: window.max }, items: pen.items });
    }
    scene
}

/// The axle with its joints and without words.
fn axle(pen: &mut Pen, paper: &Paper, picture: &Picture) {
    let unlettered = &mut Labels::new(paper.window.min, paper.window.max);
    let tyre = tyre::outline(paper, &picture.axle, picture.axle.now);
    wheel::road(pen, unlettered, paper, picture);
    dimensions::centre_plane(pen, paper);
    wheel::draw(pen, paper, &picture.axle, picture.axle.now, &tyre);
    members::draw(pen, unlettered, paper, picture, &tyre, false);
    members::joints(pen, unlettered, paper, picture, &mut Vec::new());
}

/// The planes of reference, as far as the view shows them as lines, and which way is positive.
fn planes(pen: &mut Pen, paper: &Paper) {
    let [x, y] = paper.at(Vec3::zeros());
    let (min, max) = (paper.window.min, paper.window.max);
    let says = |at: P, anchor, text: &str| Text { bold: true, size: 11.5, anchor, ..Text::at(at, text) };
    let title = match paper.view {
        View::Front => "From ahead",
        View::Side => "From the left",
        View::Plan => "From above",
        View::Pictorial => return,
    };
    pen.text(Text { ink: Ink::Ink2, ..says([max[0] - 12.0, min[1] + 20.0], Anchor::End, title) });
    match paper.view {
        View::Front => {
            pen.text(says([x + 8.0, y + 24.0], Anchor::Start, "ground: z = 0, + up"));
            pen.text(says([x + 8.0, min[1] + 20.0], Anchor::Start, "centre plane: y = 0, + outward"));
        }
        View::Side => {
            pen.line(&[[x, min[1] + 14.0], [x, max[1] - 14.0]], Stroke::centre());
            pen.text(says([x + 6.0, y + 24.0], Anchor::Start, "wheel-centre line: x = 0"));
            pen.text(says([x - 6.0, y + 24.0], Anchor::End, "+ forward"));
        }
        View::Plan => {
            pen.line(&[[min[0] + 14.0, y], [max[0] - 14.0, y]], Stroke::centre());
            pen.text(says([max[0] - 12.0, y - 6.0], Anchor::End, "wheel-centre line: x = 0"));
            pen.text(says([max[0] - 12.0, y + 16.0], Anchor::End, "+ forward, down here"));
        }
        View::Pictorial => {}
    }
}

/// A number beside every point, clear of all points and of the numbers before it.
fn numbers(pen: &mut Pen, paper: &Paper, axle: &Axle) {
    let points: Vec<P> = axle.layout.points().filter_map(|(id, _)| Some(paper.at(axle.place(id, axle.now)?))).collect();
    let mut taken: Vec<[f64; 4]> = points.iter().map(|[x, y]| [x - CLEAR, y - CLEAR, x + CLEAR, y + CLEAR]).collect();
    for (at, point) in points.iter().enumerate() {
        let number = (at + 1).to_string();
        let place = |ring: &f64, [dx, dy]: P| {
            let middle = [point[0] + dx * ring, point[1] + dy * ring + 4.5];
            Text { bold: true, size: 13.0, anchor: Anchor::Middle, ..Text::at(middle, &number) }
        };
        let places = RINGS.iter().flat_map(|ring| WAYS.map(|way| (*ring, place(ring, way))));
        let free =
            |(_, text): &(f64, Text)| inside(paper, text) && taken.iter().all(|area| apart(text.bounds(), *area));
        let found = places.clone().find(free).or_else(|| places.clone().next());
        let Some((ring, text)) = found else { continue };
        if ring > RINGS[0] {
            pen.line(&[*point, [text.at[0], text.at[1] - 4.5]], Stroke::narrow(Ink::Ink2));
        }
        taken.push(text.bounds());
        pen.text(text);
    }
}

fn inside(paper: &Paper, text: &Text) -> bool {
    let ([left, top, right, bottom], min, max) = (text.bounds(), paper.window.min, paper.window.max);
    left >= min[0] && right <= max[0] && top >= min[1] && bottom <= max[1]
}
