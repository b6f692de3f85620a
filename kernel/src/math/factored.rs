//! Six lines, factored: which motion has these rates along them.

use super::{Line, Twist};

/// A line as a row of numbers.
#[inline]
fn numbers(line: &Line) -> [f64; 6] {
    [line.u.x, line.u.y, line.u.z, line.m.x, line.m.y, line.m.z]
}

/// The order in which lines are taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Order {
    lines: [u8; 6],
    /// True if it takes an odd number of swaps to get there.
    odd: bool,
}

impl Default for Order {
    fn default() -> Order {
        Order { lines: [0, 1, 2, 3, 4, 5], odd: false }
    }
}

impl Order {
    /// The order of partial pivoting: in each column the line with the largest number left goes first, so that no factor is larger than 1.
    fn of(lines: &[Line; 6]) -> Order {
        let (mut rows, mut order) = (lines.each_ref().map(numbers), Order::default());
        for k in 0..6 {
            let largest = (k..6).fold(k, |best, i| if rows[i][k].abs() > rows[best][k].abs() { i } else { best });
            if largest != k {
                rows.swap(k, largest);
                order.lines.swap(k, largest);
                order.odd = !order.odd;
            }
            let pivot = rows[k];
            // Nothing left in this column: the lines depend on each other.
            if pivot[k] == 0.0 {
                break;
            }
            for row in &mut rows[k + 1..] {
                let factor = row[k] / pivot[k];
                (k + 1..6).for_each(|j| row[j] -= factor * pivot[j]);
            }
        }
        order
    }
}

/// The matrix whose rows are six lines, as the product of a lower and an upper triangle, P·M = L·U.
///
/// Gaussian elimination (G. H. Golub, C. F. Van Loan, *Matrix Computations*, sec. 3.4), in an order of the lines that served nearby as long as it
/// keeps the factors small, as threshold pivoting does (I. S. Duff, A. M. Erisman, J. K. Reid, *Direct Methods for Sparse Matrices*), and else in that of
/// partial pivoting. Six by six, this is the innermost work of every solve; searching an order each time takes most of the time it takes.
#[derive(Clone, Copy, Debug)]
pub struct Factored {
    /// U above the diagonal, the inverse of its numbers on it (0 for nothing), L (with ones on its diagonal) below.
    rows: [[f64; 6]; 6],
    order: Order,
    determinant: f64,
}

/// The largest factor of an order that still serves.
const LARGEST: f64 = 4.0;

impl Factored {
    /// Nothing to factor: no line, no motion.
    pub fn none(order: &Order) -> Factored {
        Factored { rows: [[0.0; 6]; 6], order: *order, determinant: 0.0 }
    }

    /// The lines, factored.
    pub fn of(lines: &[Line; 6]) -> Factored {
        Factored::near(lines, &Order::default())
    }

    /// The same where this order is likely to serve.
    pub fn near(lines: &[Line; 6], order: &Order) -> Factored {
        let mut factored = Factored::none(order);
        factored.refactor(lines);
        factored
    }

    /// Other lines in the place of these, in their order if it serves.
    pub fn refactor(&mut self, lines: &[Line; 6]) {
        if self.clear_all(lines) > LARGEST {
            self.order = Order::of(lines);
            self.clear_all(lines);
        }
    }

    /// The order that served.
    pub fn order(&self) -> Order {
        self.order
    }

    /// Factors these lines in this order; gives the largest factor, ∞ where a pivot is nothing.
    fn clear_all(&mut self, lines: &[Line; 6]) -> f64 {
        for (row, line) in self.rows.iter_mut().zip(self.order.lines) {
            *row = numbers(&lines[usize::from(line)]);
        }
        self.determinant = if self.order.odd { -1.0 } else { 1.0 };
        let mut largest = 0.0;
        self.clear::<0>(&mut largest);
        self.clear::<1>(&mut largest);
        self.clear::<2>(&mut largest);
        self.clear::<3>(&mut largest);
        self.clear::<4>(&mut largest);
        self.clear::<5>(&mut largest);
        largest
    }

    /// Clears a column below the diagonal. The column is a constant, so that the compiler lays out every step.
    #[inline(always)]
    fn clear<const K: usize>(&mut self, largest: &mut f64) {
        let pivot = self.rows[K];
        self.determinant *= pivot[K];
        // Nothing left in this column: another order may have something, or the lines depend on each other.
        let nothing = pivot[K] == 0.0;
        let inverse = if nothing { 0.0 } else { 1.0 / pivot[K] };
        self.rows[K][K] = inverse;
        if nothing {
            *largest = f64::INFINITY;
        }
        for row in &mut self.rows[K + 1..] {
            let factor = row[K] * inverse;
            // Compared, not `max`, which in WebAssembly is a call.
            if factor.abs() > *largest {
                *largest = factor.abs();
            }
            row[K] = factor;
            for j in K + 1..6 {
                row[j] -= factor * pivot[j];
            }
        }
    }

    /// The motion with these rates along the lines, mm per unit; `None` where the lines depend on each other.
    pub fn twist(&self, rates: &[f64; 6]) -> Option<Twist> {
        if self.determinant == 0.0 {
            return None;
        }
        let mut x = self.order.lines.map(|line| rates[usize::from(line)]);
        for i in 1..6 {
            for j in 0..i {
                x[i] -= self.rows[i][j] * x[j];
            }
        }
        for i in (0..6).rev() {
            for j in (i + 1..6).rev() {
                x[i] -= self.rows[i][j] * x[j];
            }
            x[i] *= self.rows[i][i];
        }
        Some(Twist { v: [x[0], x[1], x[2]].into(), omega: [x[3], x[4], x[5]].into() })
    }

    /// The determinant of the lines, mm³.
    pub fn determinant(&self) -> f64 {
        self.determinant
    }
}
