//! Linear least squares.

use nalgebra::DVector;

/// A column whose part across all earlier ones is less than this of its size counts as one of them: what it does, they do. Slopes found by stepping
/// 0.001 mm of parts of some 300 mm are true to a few millionths; what they can't tell apart is not told apart.
const SPANNED: f64 = 1e-5;

/// The x that makes ‖wanted − Σ x_j·column_j‖ least. A column that earlier ones span, or that is zero, gets 0.
///
/// Columns are made perpendicular one after the other (Gram–Schmidt, each twice, which keeps them so to rounding: Å. Björck, *Numerical Methods for
/// Least Squares Problems*, SIAM 1996, sec. 2.4): column_j = Σ_i r_ij q_i, so R·x = Qᵀ·wanted, from the last to the first.
pub fn least_squares(columns: &[DVector<f64>], wanted: &DVector<f64>) -> Vec<f64> {
    let mut basis: Vec<DVector<f64>> = Vec::new();
    let mut shares: Vec<Vec<f64>> = Vec::new();
    for column in columns {
        let (mut across, mut share) = (column.clone(), vec![0.0; columns.len()]);
        for _ in 0..2 {
            for (i, direction) in basis.iter().enumerate() {
                let along = direction.dot(&across);
                share[i] += along;
                across.axpy(-along, direction, 1.0);
            }
        }
        let size = across.norm();
        let own = size > SPANNED * column.norm();
        share[basis.len()] = if own { size } else { 0.0 };
        basis.push(if own { across / size } else { DVector::zeros(column.len()) });
        shares.push(share);
    }
    let mut x = vec![0.0; columns.len()];
    for i in (0..columns.len()).rev() {
        let others: f64 = (i + 1..columns.len()).map(|j| shares[j][i] * x[j]).sum();
        if shares[i][i] > 0.0 {
            x[i] = (basis[i].dot(wanted) - others) / shares[i][i];
        }
    }
    x
}
