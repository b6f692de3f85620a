//! How thick parts are, and where bent arms run: what of an axle can be in the way of its wheel. Optional; the default sizes are invented,
//! of the order of a small car's.

use super::{Few, Layout, Member};
use crate::frame::Vec3;
use serde::{Serialize, Serializer};

/// Diameters, where a strut's spring ends, and the bends of arms; a size that is not given has its default.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Solid {
    /// Diameter of an arm or a wishbone's leg, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub arm: Option<f64>,
    /// Diameter of the track rod, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub track_rod: Option<f64>,
    /// Diameter of the strut's tube, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strut: Option<f64>,
    /// Outer diameter of the spring, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spring: Option<f64>,
    /// How far below the top mount, along the strut's line at rest, a spring on that line ends, mm; its seat rides on the carrier.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spring_seat: Option<f64>,
    /// Diameter of the half-shaft, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub half_shaft: Option<f64>,
    /// At rest, the points through which an arm or a wishbone's leg runs from its inner to its outer joint, mm; they ride on it.
    #[serde(skip_serializing_if = "Few::is_empty", serialize_with = "by_path")]
    pub via: Few<Member, Vec<Vec3>>,
}

fn by_path<S: Serializer>(via: &Few<Member, Vec<Vec3>>, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_map(via.iter().map(|(member, points)| (member.path(), points)))
}

impl Solid {
    /// The members that may be bent.
    pub(super) const BENT: [Member; 4] = [Member::LowerFront, Member::LowerRear, Member::UpperFront, Member::UpperRear];

    /// Diameter of an arm, mm; default 30.
    pub fn arm(&self) -> f64 {
        self.arm.unwrap_or(30.0)
    }

    /// Diameter of the track rod, mm; default 18.
    pub fn track_rod(&self) -> f64 {
        self.track_rod.unwrap_or(18.0)
    }

    /// Diameter of the strut's tube, mm; default 55.
    pub fn strut(&self) -> f64 {
        self.strut.unwrap_or(55.0)
    }

    /// Outer diameter of the spring, mm; default 110.
    pub fn spring(&self) -> f64 {
        self.spring.unwrap_or(110.0)
    }

    /// From the top mount to a strut's lower spring seat, mm; default 300.
    pub fn spring_seat(&self) -> f64 {
        self.spring_seat.unwrap_or(300.0)
    }

    /// Diameter of the half-shaft, mm; default 30.
    pub fn half_shaft(&self) -> f64 {
        self.half_shaft.unwrap_or(30.0)
    }
}

impl Layout {
    /// What is given of thicknesses and bends, or nothing.
    pub fn solid(&self) -> Solid {
        self.solid.clone().unwrap_or_default()
    }
}
