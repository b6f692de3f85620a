//! The border of what lies inside, on a field of squares (marching squares).
//!
//! Round a square, counter-clockwise, the border comes in over one edge (from outside to inside) and goes out over a later one, or does so twice. The
//! part of the inside between the two is cut off by a piece of the border from where it goes out to where it came in, which has the inside on its
//! left. The neighbour across an edge goes round the other way: where a piece ends in one square, one begins in the next, so pieces join into lines.

use std::collections::{BTreeMap, BTreeSet};

/// An edge of the field: from a node to the next along the first axis, or along the second.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Edge {
    /// The node it begins at.
    pub node: [usize; 2],
    /// 0 along the first axis, 1 along the second.
    pub axis: usize,
}

/// A line of the border, with the inside on its left.
#[derive(Clone, Debug, PartialEq)]
pub struct Border<P> {
    /// Its points in order; of a closed one the first is not said again.
    pub points: Vec<P>,
    /// True if it comes back to where it began; one that ends at the edge of what is known does not.
    pub closed: bool,
}

/// The lines of the border. `inside` says of a node whether it is inside, or `None` where that is not known; `crossing` where the border crosses an
/// edge.
pub fn borders<P>(
    count: [usize; 2],
    inside: impl Fn([usize; 2]) -> Option<bool>,
    crossing: impl Fn(Edge) -> P,
) -> Vec<Border<P>> {
    let mut next = BTreeMap::new();
    for j in 1..count[1] {
        for i in 1..count[0] {
            pieces([i - 1, j - 1], &inside, &mut next);
        }
    }
    let mut lines = Vec::new();
    // Lines that begin at the edge of what is known first: the rest is closed.
    let reached: BTreeSet<Edge> = next.values().copied().collect();
    let begins: Vec<Edge> = next.keys().filter(|edge| !reached.contains(edge)).copied().collect();
    for first in begins {
        lines.push(follow(first, &mut next, &crossing));
    }
    while let Some(first) = next.keys().next().copied() {
        lines.push(follow(first, &mut next, &crossing));
    }
    lines
}

fn follow<P>(first: Edge, next: &mut BTreeMap<Edge, Edge>, crossing: impl Fn(Edge) -> P) -> Border<P> {
    let (mut points, mut edge) = (Vec::new(), first);
    loop {
        points.push(crossing(edge));
        match next.remove(&edge) {
            Some(onward) if onward == first => return Border { points, closed: true },
            Some(onward) => edge = onward,
            None => return Border { points, closed: false },
        }
    }
}

/// The pieces of the border in one square.
fn pieces([i, j]: [usize; 2], inside: impl Fn([usize; 2]) -> Option<bool>, next: &mut BTreeMap<Edge, Edge>) {
    let corners = [[i, j], [i + 1, j], [i + 1, j + 1], [i, j + 1]].map(inside);
    let [Some(a), Some(b), Some(c), Some(d)] = corners else { return };
    let corners = [a, b, c, d];
    let edges = [
        Edge { node: [i, j], axis: 0 },
        Edge { node: [i + 1, j], axis: 1 },
        Edge { node: [i, j + 1], axis: 0 },
        Edge { node: [i, j], axis: 1 },
    ];
    for into in (0..4).filter(|k| !corners[*k] && corners[(k + 1) % 4]) {
        let out = (1..4).map(|k| (into + k) % 4).find(|k| corners[*k] && !corners[(k + 1) % 4]);
        if let Some(out) = out {
            next.insert(edges[out], edges[into]);
        }
    }
}
