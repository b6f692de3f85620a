//! Sensitivity: what a millimetre or a degree of each parameter does to each reading.

use super::tangent::{Moved, Wheel};
use super::{Parameter, Quantity};
use crate::axle::NoAxle;
use crate::layout::{Layout, LeftOrRight};

/// The derivative of every quantity by every parameter, on one wheel at one position.
pub struct Sensitivity {
    /// Rise of the wheel, mm.
    pub travel: f64,
    /// Rack displacement, mm.
    pub rack: f64,
    /// Each parameter's row: per mm or per degree of it, in the order of [`Quantity::all`]; `None` where the axle does not have the quantity.
    pub rows: Vec<(Parameter, Vec<Option<f64>>)>,
}

/// The step of differences, mm; of an angle, degrees, what moves a point at 300 mm, a wheel's radius, about as far.
///
/// A central difference D(h) of a reading f errs by h²·f‴/6 + h⁴·(…); (4·D(h/2) − D(h))/3 (L. F. Richardson) by the fourth power alone. Over lengths
/// of 100 mm and more, in which f changes its shape, that is (0.5/100)⁴ ≈ 6e-10 of the derivative; coordinates of a metre carry 1e-13 mm of rounding,
/// so that noise is 1e-13/0.25 ≈ 4e-13 per mm. A smaller step buys noise, a larger one error.
pub const STEP: [f64; 2] = [0.5, 0.1];

impl Sensitivity {
    /// Of a wheel, as a left one, with rack and travel held. Design's parameters redraw the axle; changes are this side's, over those it has, the
    /// subframe's the whole car's. What a rig's sweep finds belongs to where the car stands, whatever the position.
    ///
    /// The motion of the carrier is exact, from the rows at the pose; readings are differenced along it (`vary/tangent.rs`).
    pub fn at(layout: &Layout, side: LeftOrRight, travel: f64, rack: f64) -> Result<Sensitivity, NoAxle> {
        Sensitivity::by_steps(layout, side, travel, rack, STEP)
    }

    /// The same with steps of one's own, mm and degrees.
    pub fn by_steps(
        layout: &Layout,
        side: LeftOrRight,
        travel: f64,
        rack: f64,
        [mm, degrees]: [f64; 2],
    ) -> Result<Sensitivity, NoAxle> {
        let wheel = Wheel::at(layout, side, travel, rack)?;
        let row = |parameter: Parameter| {
            let step = if parameter.unit() == "deg" { degrees } else { mm };
            (parameter, wheel.slopes(&Moved::of(layout, side, parameter, step)))
        };
        Ok(Sensitivity { travel, rack, rows: Parameter::all(layout).into_iter().map(row).collect() })
    }

    /// The table: `parameter,unit,travel_mm,rack_mm,` and a column for each quantity, one row a parameter, full precision, empty where there is none.
    pub fn table(&self, layout: &Layout) -> String {
        let columns: Vec<&str> = Quantity::all().map(Quantity::column).collect();
        let mut table = format!("parameter,unit,travel_mm,rack_mm,{}\n", columns.join(","));
        for (parameter, slopes) in &self.rows {
            let cells = slopes.iter().map(|slope| slope.map_or(String::new(), |slope| (slope + 0.0).to_string()));
            let cells = cells.collect::<Vec<_>>().join(",");
            let (name, unit) = (parameter.name(layout), parameter.unit());
            table += &format!("{name},{unit},{},{},{cells}\n", self.travel, self.rack);
        }
        table
    }
}
