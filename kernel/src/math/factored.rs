//! Six lines, factored: which motion has these rates along them.

use super::{Line, Twist};

/// The matrix whose rows are six lines, as the product of a lower and an upper triangle, P·M = L·U.
///
/// Gaussian elimination with row pivoting (G. H. Golub, C. F. Van Loan, *Matrix Computations*, sec. 3.4): in each column the row with the largest
/// number left is brought up, so that no factor is larger than 1. Six by six, this is the innermost work of every solve, and takes a third of the
/// time of a decomposition made for every size.
#[derive(Clone, Debug)]
pub struct Factored {
    /// U on and above the diagonal, L (with ones on its diagonal) below.
    rows: [[f64; 6]; 6],
    /// Which line each row was.
    order: [usize; 6],
    /// True if the rows have changed places an odd number of times.
    odd: bool,
}

impl Factored {
    /// The lines, factored.
    pub fn of(lines: &[Line; 6]) -> Factored {
        let rows = lines.each_ref().map(|Line { u, m }| [u.x, u.y, u.z, m.x, m.y, m.z]);
        let mut factored = Factored { rows, order: [0, 1, 2, 3, 4, 5], odd: false };
        factored.clear::<0>();
        factored.clear::<1>();
        factored.clear::<2>();
        factored.clear::<3>();
        factored.clear::<4>();
        factored
    }

    /// Clears a column below the diagonal. The column is a constant, so that the compiler lays out every step.
    #[inline(always)]
    fn clear<const K: usize>(&mut self) {
        let mut largest = K;
        for i in K + 1..6 {
            if self.rows[i][K].abs() > self.rows[largest][K].abs() {
                largest = i;
            }
        }
        if largest != K {
            self.rows.swap(K, largest);
            self.order.swap(K, largest);
            self.odd = !self.odd;
        }
        let pivot = self.rows[K];
        // Nothing left in this column: the lines depend on each other.
        if pivot[K] == 0.0 {
            return;
        }
        for row in &mut self.rows[K + 1..] {
            let factor = row[K] / pivot[K];
            row[K] = factor;
            for j in K + 1..6 {
                row[j] -= factor * pivot[j];
            }
        }
    }

    /// The motion with these rates along the lines, mm per unit; `None` where the lines depend on each other.
    pub fn twist(&self, rates: &[f64; 6]) -> Option<Twist> {
        let mut x = self.order.map(|line| rates[line]);
        for i in 1..6 {
            for j in 0..i {
                x[i] -= self.rows[i][j] * x[j];
            }
        }
        for i in (0..6).rev() {
            for j in i + 1..6 {
                x[i] -= self.rows[i][j] * x[j];
            }
            if self.rows[i][i] == 0.0 {
                return None;
            }
            x[i] /= self.rows[i][i];
        }
        Some(Twist { v: [x[0], x[1], x[2]].into(), omega: [x[3], x[4], x[5]].into() })
    }

    /// The determinant of the lines, mm³.
    pub fn determinant(&self) -> f64 {
        let product: f64 = (0..6).map(|i| self.rows[i][i]).product();
        if self.odd { -product } else { product }
    }
}
