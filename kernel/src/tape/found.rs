//! Where the points are, how well that is known, and which reading does not fit.

use super::network::{Network, places};
use crate::frame::Vec3;
use crate::math::damped;
use nalgebra::{DMatrix, DVector, Matrix3, SymmetricEigen};

/// What the readings say.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Where the points are, mm. What is not determined is where it was thought to be, or near it.
    pub places: Vec<Vec3>,
    /// The standard deviation of each coordinate, mm; `None` is not determined.
    pub errors: Vec<[Option<f64>; 3]>,
    /// The directions in which a point is not determined, unit vectors across each other, the most open first.
    pub open: Vec<Vec<Vec3>>,
    /// Every reading against the places found.
    pub checked: Vec<Checked>,
    /// Sum of squares of what is left of the readings over their standard deviations.
    pub chi2: f64,
    /// Readings more than were needed: what χ² would be, about, if the errors are as stated.
    pub spare: usize,
    /// True unless the readings contradict each other by more than their errors allow, but for one case in a thousand.
    pub agree: bool,
    /// The reading that fits worst, if it is off by more than its error allows but for one case in a thousand; behind it those of which it could as
    /// well be.
    pub suspects: Vec<Suspect>,
}

/// A reading against the places found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Checked {
    /// The reading less what it would be by the places found, mm.
    pub left: f64,
    /// The same over its standard deviation: beyond ±3.3 once in a thousand. `None` for a reading that no other one checks.
    pub standardised: Option<f64>,
}

/// A reading that does not fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suspect {
    /// Its place among the readings.
    pub tape: usize,
    /// By how much it is longer than all the others together say, mm.
    pub by: f64,
}

/// A standard deviation above this is no measurement, mm: what the readings leave so far open is not determined.
pub const NO_MEASUREMENT: f64 = 50.0;

/// Singular values of J below this count as this, 1/mm: a standard deviation of a kilometre. Rounding in 60 points' J is a millionth of it.
const FLAT: f64 = 1e-6;

/// A reading of whose error the others see less than this share is checked by nothing.
const UNCHECKED: f64 = 0.01;

/// A standard normal number is beyond this, either way, in one case of a thousand.
const DOUBT: f64 = 3.2905;

/// A standard normal number is above this in one case of a thousand.
const RARE: f64 = 3.0902;

/// Two readings can't be told apart as the wrong one if leaving out the one lowers χ² by less than this more than leaving out the other: as causes of
/// a repair, two standard deviations.
const TOLD_APART: f64 = 4.0;

impl Network {
    /// Where the points are; `None` where the readings lead nowhere.
    pub fn solve(&self) -> Option<Found> {
        let coordinates = self.fitted()?;
        let (left, slopes) = self.model(&coordinates);
        let seen = Seen::of(&slopes)?;
        let shares = seen.shares(&slopes);
        let tapes = self.tapes().iter().enumerate();
        let checked: Vec<Checked> = tapes.map(|(i, tape)| Checked::of(left[i], tape.error, shares[i])).collect();
        let (chi2, spare) = (left.norm_squared(), left.len().saturating_sub(seen.rank()));
        Some(Found {
            places: places(&coordinates),
            errors: (0..self.points().len()).map(|point| seen.errors(point)).collect(),
            open: (0..self.points().len()).map(|point| seen.open(point)).collect(),
            suspects: self.suspects(&checked),
            agree: spare == 0 || chi2 <= rare_chi2(spare as f64),
            checked,
            chi2,
            spare,
        })
    }

    /// The coordinates that make the sum of squares least.
    fn fitted(&self) -> Option<Vec<f64>> {
        let start = self.points().iter().flat_map(|p| [p.x, p.y, p.z]).collect();
        damped(start, |coordinates| {
            let (left, slopes) = self.model(coordinates);
            (left, slopes.column_iter().map(DVector::from).collect())
        })
    }

    /// The readings that may be the wrong one, the worst first.
    fn suspects(&self, checked: &[Checked]) -> Vec<Suspect> {
        let squares: Vec<f64> = checked.iter().map(|c| c.standardised.unwrap_or_default().powi(2)).collect();
        let most = squares.iter().copied().fold(0.0, f64::max);
        if most <= DOUBT * DOUBT {
            return Vec::new();
        }
        let mut those: Vec<usize> = (0..squares.len()).filter(|i| squares[*i] > most - TOLD_APART).collect();
        those.sort_by(|a, b| squares[*b].total_cmp(&squares[*a]));
        those.into_iter().filter_map(|tape| Some(Suspect { tape, by: self.by_the_others(tape)? })).collect()
    }

    /// By how much a reading is longer than the others say.
    fn by_the_others(&self, tape: usize) -> Option<f64> {
        let places = places(&self.without(tape).fitted()?);
        let reading = self.tapes()[tape];
        Some(reading.value - self.read(reading.what, &places).0)
    }
}

impl Checked {
    /// What is left of (f − value)/σ, with the share of the reading's error that goes into the places.
    fn of(left: f64, error: f64, share: f64) -> Checked {
        let seen = 1.0 - share;
        Checked { left: -left * error, standardised: (seen > UNCHECKED).then(|| -left / seen.sqrt()) }
    }
}

/// χ² of so many degrees of freedom that is exceeded once in a thousand cases: χ² = k·(1 − 2/(9k) + z·√(2/(9k)))³ (E. B. Wilson, M. M. Hilferty,
/// *PNAS* 17 (1931) 684).
fn rare_chi2(freedom: f64) -> f64 {
    let part = 2.0 / (9.0 * freedom);
    freedom * (1.0 - part + RARE * part.sqrt()).powi(3)
}

/// What the readings see: each movement of all points together, with how sharply it is seen.
struct Seen {
    /// Singular values, 1/mm.
    sharp: DVector<f64>,
    /// Movements, a row each: unit vectors across each other.
    moves: DMatrix<f64>,
}

/// Turns of the search for singular values: thirty a value are many.
const TURNS: usize = 30 * 3 * super::MOST;

impl Seen {
    fn of(slopes: &DMatrix<f64>) -> Option<Seen> {
        if slopes.ncols() == 0 {
            return Some(Seen { sharp: DVector::zeros(0), moves: DMatrix::zeros(0, 0) });
        }
        // As many rows as coordinates at least, so that every movement is listed, seen or not.
        let rows = slopes.nrows().max(slopes.ncols());
        let svd = slopes.clone().resize_vertically(rows, 0.0).try_svd(false, true, f64::EPSILON, TURNS)?;
        Some(Seen { sharp: svd.singular_values, moves: svd.v_t? })
    }

    fn rank(&self) -> usize {
        self.sharp.iter().filter(|sharp| **sharp > FLAT).count()
    }

    /// The share of each reading's error that goes into the places: Σ (J·v/s)² over all that is seen.
    fn shares(&self, slopes: &DMatrix<f64>) -> Vec<f64> {
        let mut shares = vec![0.0; slopes.nrows()];
        for (sharp, along) in self.sharp.iter().zip(self.moves.row_iter()).filter(|(sharp, _)| **sharp > FLAT) {
            let effect = slopes * along.transpose();
            shares.iter_mut().zip(effect.iter()).for_each(|(share, by)| *share += (by / sharp).powi(2));
        }
        shares
    }

    /// The covariance of a point, mm².
    fn covariance(&self, point: usize) -> Matrix3<f64> {
        let part = |(sharp, along): (&f64, nalgebra::RowDVector<f64>)| {
            let at: Vec3 = along.columns(3 * point, 3).transpose().fixed_rows::<3>(0).into();
            at * at.transpose() / sharp.max(FLAT).powi(2)
        };
        self.sharp.iter().zip(self.moves.row_iter().map(|row| row.into_owned())).map(part).sum()
    }

    fn errors(&self, point: usize) -> [Option<f64>; 3] {
        let covariance = self.covariance(point);
        [0, 1, 2].map(|axis| Some(covariance[(axis, axis)].sqrt()).filter(|error| *error <= NO_MEASUREMENT))
    }

    fn open(&self, point: usize) -> Vec<Vec3> {
        let own = SymmetricEigen::new(self.covariance(point));
        let mut open: Vec<usize> = (0..3).filter(|i| own.eigenvalues[*i] > NO_MEASUREMENT.powi(2)).collect();
        open.sort_by(|a, b| own.eigenvalues[*b].total_cmp(&own.eigenvalues[*a]));
        open.into_iter().map(|i| own.eigenvectors.column(i).into()).collect()
    }
}
