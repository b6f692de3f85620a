//! What cornering moves from wheel to wheel: lateral load transfer of a body on two axles (D. C. Barton, J. D. Fieldhouse,
//! *Automotive Chassis Engineering*, Springer 2018, p. 174; its example is a test). The body, with its centre of gravity d above the roll
//! axis, rolls until the springs hold it; each axle takes the side force of its masses at their heights and its share of the springs' moment:
//! ```text
//! φ = m a d/(K − m g d),   ΔF_axle = [m_axle a h_roll centre + m_unsprung a h_unsprung + k K φ]/track
//! ```

/// Standard gravity, m/s² (ISO 80000-3), so that a force in N comes of a mass in kg.
pub(super) const G: f64 = 9.80665;

/// The masses, heights and stiffnesses it depends on. Front first in every pair; kg, mm, N·mm/rad.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LateralTransfer {
    /// Sprung masses over the axles.
    pub sprung: [f64; 2],
    /// Height of the sprung masses' centre of gravity.
    pub height: f64,
    /// Heights of the roll centres.
    pub roll_centres: [f64; 2],
    /// Unsprung masses.
    pub unsprung: [f64; 2],
    /// Heights of their centres of gravity.
    pub unsprung_heights: [f64; 2],
    /// Track of both axles.
    pub track: f64,
    /// Roll stiffness of both axles together.
    pub stiffness: f64,
    /// The front axle's share of it.
    pub front_share: f64,
}

impl LateralTransfer {
    /// Masses of the body, kg, and its arm over the roll axis, mm.
    fn body(&self) -> (f64, f64) {
        let mass = self.sprung[0] + self.sprung[1];
        let axis = (self.sprung[0] * self.roll_centres[0] + self.sprung[1] * self.roll_centres[1]) / mass;
        (mass, self.height - axis)
    }

    /// Stiffness below which the body falls over, m g d, N·mm/rad.
    pub fn least_stiffness(&self) -> f64 {
        let (mass, arm) = self.body();
        mass * G * arm
    }

    /// Roll angle at `a` g, rad; `None` for springs too soft to hold the body up.
    pub fn roll(&self, a: f64) -> Option<f64> {
        let least = self.least_stiffness();
        (self.stiffness > least).then(|| a * least / (self.stiffness - least))
    }

    /// What goes from the inner to the outer wheel of each axle at `a` g, N; `None` as for [`LateralTransfer::roll`].
    pub fn axles(&self, a: f64) -> Option<[f64; 2]> {
        let springs = self.stiffness * self.roll(a)?;
        let shares = [self.front_share, 1.0 - self.front_share];
        Some(std::array::from_fn(|i| {
            let masses = self.sprung[i] * self.roll_centres[i] + self.unsprung[i] * self.unsprung_heights[i];
            (a * G * masses + shares[i] * springs) / self.track
        }))
    }
}
