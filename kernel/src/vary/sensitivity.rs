//! Sensitivity: what a millimetre or a degree of each parameter does to each reading.

use super::{Outcome, Parameter, Quantity, read};
use crate::axle::NoAxle;
use crate::layout::{Layout, LeftOrRight, Sides};

/// The derivative of every quantity by every parameter, on one wheel at one position.
pub struct Sensitivity {
    /// Rise of the wheel, mm.
    pub travel: f64,
    /// Rack displacement, mm.
    pub rack: f64,
    /// Each parameter's row: per mm or per degree of it, in the order of [`Quantity::all`]; `None` where the axle does not have the quantity, or can't
    /// be assembled a step further.
    pub rows: Vec<(Parameter, Vec<Option<f64>>)>,
}

/// The step of differences, mm; of an angle, degrees, what moves a point at 300 mm, a wheel's radius, about as far.
///
/// A central difference D(h) of a reading f errs by h²·f‴/6 + h⁴·(…); (4·D(h/2) − D(h))/3 (L. F. Richardson) by the fourth power alone. Over lengths
/// of 100 mm and more, in which f changes its shape, that is (0.5/100)⁴ ≈ 6e-10 of the derivative; a pose is solved to 1e-11 mm, so that noise is
/// 1e-11/0.25 ≈ 4e-11 per mm. A smaller step buys noise, a larger one error.
pub const STEP: [f64; 2] = [0.5, 0.1];

impl Sensitivity {
    /// Of a wheel, as a left one, with rack and travel held. Design's parameters redraw the axle; changes are this side's, over those it has, the
    /// subframe's the whole car's. What a rig's sweep finds belongs to where the car stands, whatever the position.
    ///
    /// Every derivative is a difference of solved states: most readings contain the motions at the pose, whose derivative the rows at one pose do not
    /// give.
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
        let outcomes: Vec<Outcome> = Quantity::all()
            .map(|quantity| {
                let travel = if quantity.is_swept() { layout.changes.ride() } else { travel };
                Outcome { quantity, side, travel, rack }
            })
            .collect();
        read(layout, &outcomes)?;
        let row = |parameter: Parameter| {
            let step = if parameter.unit() == "deg" { degrees } else { mm };
            let at = |by| read(&parameter.added(layout, Sides::One(side), by), &outcomes).ok();
            let slopes = slopes(&at, step).unwrap_or_else(|| vec![None; outcomes.len()]);
            (parameter, slopes)
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

/// Values at a step, each of them where there is one.
type Values = Option<Vec<Option<f64>>>;

/// The derivatives of several values by Richardson's rule; see [`STEP`].
fn slopes(at: &impl Fn(f64) -> Values, step: f64) -> Values {
    let [far, near] = [step, step / 2.0].map(|h| Some((at(h)?, at(-h)?, 2.0 * h)));
    let difference =
        |(up, down, h): &(Vec<Option<f64>>, Vec<Option<f64>>, f64), i: usize| Some((up[i]? - down[i]?) / h);
    let (far, near) = (far?, near?);
    Some((0..far.0.len()).map(|i| Some((4.0 * difference(&near, i)? - difference(&far, i)?) / 3.0)).collect())
}
