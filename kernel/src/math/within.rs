//! Linear least squares of one unknown or two, each within its bounds.

/// What two columns' directions must differ in, as a part of their squares, to be told apart: the rest is rounding.
const DAMPING: f64 = 1e-12;

/// The sum of squares.
pub fn squares(all: &[f64]) -> f64 {
    all.iter().map(|one| one * one).sum()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The movements within their room that make ‖lack + Σ slopes·movement‖ least: inside, where that is so, else the best along the edges.
pub fn within(slopes: &[Vec<f64>], lack: &[f64], room: &[[f64; 2]]) -> Vec<f64> {
    let alone = |i: usize, lack: &[f64]| {
        let square = dot(&slopes[i], &slopes[i]);
        let by = if square > 0.0 { -dot(&slopes[i], lack) / square } else { 0.0 };
        by.clamp(room[i][0], room[i][1])
    };
    if slopes.len() == 1 {
        return vec![alone(0, lack)];
    }
    let [a, b, c] = [(0, 0), (0, 1), (1, 1)].map(|(i, j)| dot(&slopes[i], &slopes[j]));
    let damping = DAMPING * (a + c);
    let [f, g] = [0, 1].map(|i| -dot(&slopes[i], lack));
    let determinant = (a + damping) * (c + damping) - b * b;
    let inside = vec![(f * (c + damping) - g * b) / determinant, (g * (a + damping) - f * b) / determinant];
    if inside.iter().zip(room).all(|(by, [least, most])| (*least..=*most).contains(by)) {
        return inside;
    }
    let edge = |(i, end): (usize, f64)| {
        let then: Vec<f64> = lack.iter().zip(&slopes[i]).map(|(lack, slope)| lack + slope * end).collect();
        let mut by = vec![end; 2];
        by[1 - i] = alone(1 - i, &then);
        let rest: Vec<f64> = then.iter().zip(&slopes[1 - i]).map(|(lack, slope)| lack + slope * by[1 - i]).collect();
        (by, squares(&rest))
    };
    let edges = [(0, room[0][0]), (0, room[0][1]), (1, room[1][0]), (1, room[1][1])].map(edge);
    edges.into_iter().min_by(|(_, a), (_, b)| a.total_cmp(b)).map_or(inside, |(by, _)| by)
}
