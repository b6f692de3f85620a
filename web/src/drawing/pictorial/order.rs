//! What lies before what: parts are painted from behind to before, each pair by where the two are drawn over each other.

use crate::drawing::Paper;
use crate::drawing::scene::{Item, P};
use crate::drawing::shapes::{add, hull, inside_part, length, scaled, sub};
use kernel::Vec3;

/// Something painted at once.
pub struct Part {
    /// The lines it runs along, in the car; one from a point to itself for what stands at a point.
    pub lines: Vec<[Vec3; 2]>,
    /// Half its width on paper, px.
    pub half: f64,
    /// Corners of the solid that it is, in place of lines.
    pub solid: Vec<Vec3>,
    /// How much nearer it counts than it is, mm: a joint's symbol lies over the rods that meet in it.
    pub nearer: f64,
    pub items: Vec<Item>,
}

impl Part {
    /// Along one line.
    pub fn along(line: [Vec3; 2], half: f64, items: Vec<Item>) -> Part {
        Part { lines: vec![line], half, solid: Vec::new(), nearer: 0.0, items }
    }

    fn middle(&self, paper: &Paper) -> f64 {
        let points: Vec<Vec3> = self.lines.iter().flatten().chain(&self.solid).copied().collect();
        points.iter().map(|point| paper.depth(*point)).sum::<f64>() / points.len().max(1) as f64 + self.nearer
    }
}

/// Two parts this near each other in depth, mm, are as they are given.
const LEVEL: f64 = 1.0;

/// The items of all parts, those behind first. Three that lie over each other in a circle have no order: the one whose middle is farthest goes first.
pub fn ordered(paper: &Paper, mut parts: Vec<Part>) -> Vec<Item> {
    parts.sort_by(|a, b| a.middle(paper).total_cmp(&b.middle(paper)));
    let before: Vec<Vec<f64>> = parts.iter().map(|a| parts.iter().map(|b| nearer(paper, a, b)).collect()).collect();
    let mut waiting: Vec<usize> = (0..parts.len()).collect();
    let mut items = Vec::new();
    while !waiting.is_empty() {
        let free = |at: &usize| waiting.iter().all(|other| before[*at][*other] <= LEVEL);
        let next = waiting.iter().position(free).unwrap_or(0);
        items.append(&mut parts[waiting.remove(next)].items);
    }
    items
}

/// How much nearer `a` is than `b` where they are drawn over each other, mm; 0 where they are not.
fn nearer(paper: &Paper, a: &Part, b: &Part) -> f64 {
    let lines =
        a.lines.iter().flat_map(|line| b.lines.iter().filter_map(move |other| between(paper, (*line, a), (*other, b))));
    let solid = through(paper, &a.solid, b).into_iter().chain(through(paper, &b.solid, a).map(|by| -by));
    let most = lines.chain(solid).fold(0.0, |most: f64, by| if by.abs() > most.abs() { by } else { most });
    most + if most == 0.0 { 0.0 } else { a.nearer - b.nearer }
}

/// How much nearer the first of two lines is where they are drawn over each other.
fn between(paper: &Paper, (a, part): ([Vec3; 2], &Part), (b, other): ([Vec3; 2], &Part)) -> Option<f64> {
    let [pa, pb] = [a, b].map(|line| line.map(|end| paper.at(end)));
    let (s, t) = closest(pa, pb);
    let on = |[from, to]: [P; 2], k: f64| add(from, scaled(sub(to, from), k));
    let apart = length(sub(on(pa, s), on(pb, t)));
    // Where two only meet, as rods in a joint, the joint's symbol is all that has to know.
    let depth = |[from, to]: [Vec3; 2], k: f64| paper.depth(from + (to - from) * k);
    (apart < part.half + other.half).then(|| {
        let by = depth(a, s) - depth(b, t);
        if by == 0.0 { f64::MIN_POSITIVE } else { by }
    })
}

/// Where two lines on paper cross or come closest, as parts of their lengths.
fn closest(a: [P; 2], b: [P; 2]) -> (f64, f64) {
    let (u, v, w) = (sub(a[1], a[0]), sub(b[1], b[0]), sub(b[0], a[0]));
    let cross = |a: P, b: P| a[0] * b[1] - a[1] * b[0];
    let area = cross(u, v);
    if area != 0.0 {
        let (s, t) = (cross(w, v) / area, cross(w, u) / area);
        if (0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t) {
            return (s, t);
        }
    }
    let foot = |[from, to]: [P; 2], p: P| {
        let (along, way) = (sub(to, from), sub(p, from));
        let square = along[0] * along[0] + along[1] * along[1];
        if square > 0.0 { ((along[0] * way[0] + along[1] * way[1]) / square).clamp(0.0, 1.0) } else { 0.0 }
    };
    let on = |[from, to]: [P; 2], k: f64| add(from, scaled(sub(to, from), k));
    let ends = [(0.0, foot(b, a[0])), (1.0, foot(b, a[1])), (foot(a, b[0]), 0.0), (foot(a, b[1]), 1.0)];
    let apart = |(s, t): &(f64, f64)| length(sub(on(a, *s), on(b, *t)));
    ends.into_iter().min_by(|one, other| apart(one).total_cmp(&apart(other))).unwrap_or_default()
}

/// How much nearer a solid's middle is than the lines of a part that run behind or before it.
fn through(paper: &Paper, solid: &[Vec3], part: &Part) -> Option<f64> {
    let outline = hull(solid.iter().map(|point| paper.at(*point)).collect());
    let inside = part.lines.iter().filter_map(|line| {
        let [a, b] = line.map(|end| paper.at(end));
        let (from, to) = inside_part(&outline, a, b)?;
        let at = line[0] + (line[1] - line[0]) * f64::midpoint(from, to);
        Some(middle_of(paper, solid, paper.at(at))? - paper.depth(at))
    });
    inside.max_by(|a, b| a.abs().total_cmp(&b.abs()))
}

/// The depth half-way through the convex solid over these corners at a place on paper: its surface is among the triangles of its corners.
fn middle_of(paper: &Paper, corners: &[Vec3], at: P) -> Option<f64> {
    let seen: Vec<(P, f64)> = corners.iter().map(|corner| (paper.at(*corner), paper.depth(*corner))).collect();
    let cross = |o: P, a: P, b: P| (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);
    let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
    for (i, (a, depth_a)) in seen.iter().enumerate() {
        for (j, (b, depth_b)) in seen.iter().enumerate().skip(i + 1) {
            for (c, depth_c) in &seen[j + 1..] {
                let area = cross(*a, *b, *c);
                let parts = [cross(at, *b, *c), cross(at, *c, *a), cross(at, *a, *b)].map(|part| part / area);
                if parts.iter().all(|part| *part >= 0.0) {
                    let depth = parts[0] * depth_a + parts[1] * depth_b + parts[2] * depth_c;
                    (least, most) = (least.min(depth), most.max(depth));
                }
            }
        }
    }
    (least <= most).then_some(f64::midpoint(least, most))
}
