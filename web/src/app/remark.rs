//! What is said of a slip.

use crate::text::number::fixed;
use crate::text::sentence::capital;
use kernel::{Layout, PointId, Remark};

/// A remark as the page says it: the part, by how much, and what was probably meant.
pub fn sentence(remark: &Remark, layout: &Layout) -> String {
    let mm = |value: f64| fixed(value, 1);
    let the = |id: PointId| format!("The {}", id.name());
    match *remark {
        Remark::OtherSide(id, y) => {
            format!("{} has y = {}: the right-hand side of the car. Probably y = {} is meant.", the(id), mm(y), mm(-y))
        }
        Remark::BelowRoad(id, by) => {
            format!("{} lies {} mm below the road. Probably z = {} is meant.", the(id), mm(by), mm(by))
        }
        Remark::Digit(id, axis, is, meant) => {
            let axis = ["x", "y", "z"][axis];
            let slip = if meant.abs() > is.abs() { "A digit may be missing" } else { "There may be a digit too many" };
            format!("{} has {axis} = {}. {slip}: {}?", the(id), mm(is), mm(meant))
        }
        Remark::AboveFoot(id, by) => format!(
            "{} lies {} mm above the strut’s foot; usually it lies below. Check the z of both.",
            the(id),
            mm(by)
        ),
        Remark::InTyre(id, deep) => format!(
            "{} lies inside the tyre, {} mm behind its side. Check the joint, the tyre’s size and the wheel centre.",
            the(id),
            mm(deep)
        ),
        Remark::OffRoad(by) => {
            let (way, wheel) = (if by > 0.0 { "above" } else { "below" }, &layout.wheel);
            format!(
                "At rest the tyre stands {} mm {way} the road (z = 0): the wheel centre’s height {} and the loaded radius {} do not agree.",
                mm(by.abs()),
                mm(wheel.centre.z),
                mm(wheel.loaded_radius)
            )
        }
        Remark::Inclination(angle) => format!(
            "The kingpin inclination is {}°; usually it lies between 0° and 20°. Check the y of the outer joints.",
            fixed(angle, 1)
        ),
        Remark::InLine(one, other, by) => format!(
            "{} and {} lie along one line ({} mm apart), so they hold the wheel like one. Check their joints: perhaps one was entered twice.",
            capital(&format!("the {}", one.name(layout))),
            other.name(layout),
            mm(by)
        ),
    }
}
