//! Parameters: the numbers of a layout that can be varied, by the names of the layout file's own paths.

use crate::layout::{Change, Guide, Layout, PointId, Sides};

/// One number of a layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Parameter {
    /// A number of the design: whatever it is, the wheel stands at rest as the design says.
    Design(Design),
    /// Something different from the design, which stays: the pose answers.
    Change(Change),
}

/// A number of the design.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Design {
    /// Where a point is at rest along x, y or z (0, 1, 2), mm.
    Coordinate(PointId, usize),
    /// Camber at rest, degrees.
    Camber,
    /// Toe at rest, degrees.
    Toe,
    /// Loaded radius, mm.
    LoadedRadius,
}

const AXES: [&str; 3] = ["x", "y", "z"];

impl Parameter {
    /// Every parameter of an axle, those of the design first. The tyre's changes and the ride height are none, nor a rim's offset: what it does, a
    /// spacer does the other way.
    pub fn all(layout: &Layout) -> Vec<Parameter> {
        let design = Design::all(layout).into_iter().map(Parameter::Design);
        let varied = |change: &Change| is_of_a_part(*change) || *change == Change::Spacer;
        design.chain(Change::all(layout).into_iter().filter(varied).map(Parameter::Change)).collect()
    }

    /// The parameter of this axle that a name says.
    pub fn named(name: &str, layout: &Layout) -> Option<Parameter> {
        Parameter::all(layout).into_iter().find(|parameter| parameter.name(layout) == name)
    }

    /// Its name in this axle's files and tables.
    pub fn name(self, layout: &Layout) -> String {
        match self {
            Parameter::Design(Design::Coordinate(id, axis)) => format!("{}.{}", id.path(layout), AXES[axis]),
            Parameter::Design(Design::Camber) => "wheel.camber".into(),
            Parameter::Design(Design::Toe) => "wheel.toe".into(),
            Parameter::Design(Design::LoadedRadius) => "wheel.loaded_radius".into(),
            Parameter::Change(change) => change.name(layout),
        }
    }

    /// What people call it on this axle.
    pub fn label(self, layout: &Layout) -> String {
        match self {
            Parameter::Design(Design::Coordinate(id, axis)) => format!("{}, {}", id.name(), AXES[axis]),
            Parameter::Design(Design::Camber) => "camber at rest".into(),
            Parameter::Design(Design::Toe) => "toe at rest".into(),
            Parameter::Design(Design::LoadedRadius) => "loaded radius".into(),
            Parameter::Change(change) => change.label(layout),
        }
    }

    /// The point that it is a coordinate of, or shifts on its part.
    pub fn point(self) -> Option<PointId> {
        match self {
            Parameter::Design(Design::Coordinate(id, _)) | Parameter::Change(Change::Joint(id, _)) => Some(id),
            _ => None,
        }
    }

    /// Its unit as tables write it: “mm” or “deg”.
    pub fn unit(self) -> &'static str {
        match self {
            Parameter::Design(Design::Camber | Design::Toe) => "deg",
            Parameter::Change(change) if change.unit() == "°" => "deg",
            _ => "mm",
        }
    }

    /// What it is on a layout; of a change: on these sides, over what both have. `None` where the axle does not have it.
    pub fn get(self, layout: &Layout, of: Sides) -> Option<f64> {
        match self {
            Parameter::Design(Design::Coordinate(id, axis)) => layout.point(id).map(|point| point[axis]),
            Parameter::Design(Design::Camber) => Some(layout.wheel.camber),
            Parameter::Design(Design::Toe) => Some(layout.wheel.toe),
            Parameter::Design(Design::LoadedRadius) => Some(layout.wheel.loaded_radius),
            Parameter::Change(change) => Some(layout.changes.get(sides(change, of), change)),
        }
    }

    /// Sets it; the design's is of both sides whatever is asked for, as is a change of the whole car. Without effect where the axle does not have it.
    pub fn set(self, layout: &mut Layout, of: Sides, value: f64) {
        match self {
            Parameter::Design(Design::Coordinate(id, axis)) => {
                if let Some(point) = layout.point_mut(id) {
                    point[axis] = value;
                }
            }
            Parameter::Design(Design::Camber) => layout.wheel.camber = value,
            Parameter::Design(Design::Toe) => layout.wheel.toe = value,
            Parameter::Design(Design::LoadedRadius) => layout.wheel.loaded_radius = value,
            Parameter::Change(change) => layout.changes.set(sides(change, of), change, value),
        }
    }

    /// The layout with this much added to it.
    pub fn added(self, layout: &Layout, of: Sides, by: f64) -> Layout {
        let mut new = layout.clone();
        if let Some(value) = self.get(layout, of) {
            self.set(&mut new, of, value + by);
        }
        new
    }
}

/// The sides a change can be of.
fn sides(change: Change, of: Sides) -> Sides {
    if change.of_both() { Sides::Both } else { of }
}

/// True for what can be wrong with a part of the axle: where a joint sits, a length, the carrier, the subframe.
pub fn is_of_a_part(change: Change) -> bool {
    use Change::*;
    let carrier_or_subframe = matches!(change, CarrierCamber | CarrierToe | Subframe(_) | SubframeYaw);
    carrier_or_subframe || matches!(change, Length(_) | StrutLine(_) | Joint(..))
}

impl Design {
    /// Every number of an axle's design that can be varied: the joints, the strut's foot, the ends of a spring that gives its own, the wheel.
    fn all(layout: &Layout) -> Vec<Design> {
        let strut = matches!(layout.upper, Guide::Strut { .. });
        let varied = |id: &PointId| {
            id.is_joint()
                || strut && *id == PointId::StrutFoot
                || matches!(id, PointId::SpringTop | PointId::SpringFoot | PointId::WheelCentre)
        };
        let points = layout.points().map(|(id, _)| id).filter(varied);
        let places = points.flat_map(|id| (0..3).map(move |axis| Design::Coordinate(id, axis)));
        places.chain([Design::Camber, Design::Toe, Design::LoadedRadius]).collect()
    }
}
