//! The spring: what it stands on, and the rocker between.

use crate::frame::Vec3;
use serde::Serialize;

/// The spring: a straight line from the body to a foot that rides on some part.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Spring {
    /// The part its foot rides on.
    pub on: SpringOn,
    /// Upper end on the body, mm; a spring on the strut has the strut's unless it gives its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub top: Option<Vec3>,
    /// Foot, mm; a spring on the strut has the strut's unless it gives its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub foot: Option<Vec3>,
    /// Stiffness, N/mm.
    pub rate: f64,
    /// With a rocker, a push-rod or pull-rod runs from `foot` to it, and the spring from it to `top`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rocker: Option<Rocker>,
}

/// A rocker between a rod and the spring, turning about an axis fixed on the body.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rocker {
    /// A point of its axis, mm.
    pub pivot: Vec3,
    /// Direction of its axis, of any length.
    pub axis: Vec3,
    /// Joint of the rod on it, mm.
    pub rod: Vec3,
    /// Joint of the spring on it, mm.
    pub spring: Vec3,
}

/// The part a spring's foot rides on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum SpringOn {
    /// The strut, along its own line or a tilted one; the foot is fixed in the carrier.
    #[serde(rename = "strut")]
    Strut,
    /// The carrier.
    #[serde(rename = "carrier")]
    Carrier,
    /// The lower wishbone.
    #[serde(rename = "lower")]
    Lower,
    /// The lower front arm.
    #[serde(rename = "lower.front")]
    LowerFront,
    /// The lower rear arm.
    #[serde(rename = "lower.rear")]
    LowerRear,
    /// The upper wishbone.
    #[serde(rename = "upper")]
    Upper,
    /// The upper front arm.
    #[serde(rename = "upper.front")]
    UpperFront,
    /// The upper rear arm.
    #[serde(rename = "upper.rear")]
    UpperRear,
}

impl SpringOn {
    /// Every choice with the name it has in files and links.
    pub const ALL: [(SpringOn, &'static str); 8] = [
        (SpringOn::Strut, "strut"),
        (SpringOn::Carrier, "carrier"),
        (SpringOn::Lower, "lower"),
        (SpringOn::LowerFront, "lower.front"),
        (SpringOn::LowerRear, "lower.rear"),
        (SpringOn::Upper, "upper"),
        (SpringOn::UpperFront, "upper.front"),
        (SpringOn::UpperRear, "upper.rear"),
    ];

    /// The name it has in files and links.
    pub fn name(self) -> &'static str {
        Self::ALL.iter().find(|(on, _)| *on == self).map_or("", |(_, name)| name)
    }
}
