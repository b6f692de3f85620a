//! A layout: the axle as plain data, all points at rest (travel 0, rack 0). Format version 1.
//!
//! Fields are public and unchecked; [`validate()`] lists everything that is wrong with one.

mod built;
mod changed;
mod changes;
mod field;
mod file;
mod json;
mod member;
mod parts;
mod point;
mod usual;
mod validate;
mod words;

pub use built::Built;
pub use changes::{Adjusted, Adjuster, Change, Changes, LeftOrRight, Sides};
pub use field::LIMIT;
pub use member::{Member, Part};
pub use parts::{AntiRollBar, Damper, Drive, HalfShaft, RollFrom, Stops, Vehicle};
pub use point::PointId;
pub use validate::{Amount, LONGEST_NOTE, Problem, validate};
pub use words::{clean, clip};

pub(crate) use file::{Part as Entry, Read};
pub(crate) use json::parse;

use crate::frame::Vec3;
use serde::Serialize;
use std::collections::BTreeMap;

/// One front (or unsteered) axle, given by its left wheel.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Layout {
    /// The format's version: 1.
    #[serde(rename = "layout")]
    pub version: u32,
    /// What the author calls it.
    pub name: String,
    /// A sentence or two about it.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// The wheel at rest.
    pub wheel: Wheel,
    /// The lower guide: wishbone or arms.
    pub lower: Guide,
    /// The upper guide: wishbone, arms or strut.
    pub upper: Guide,
    /// From the rack (with no rack: from the body) to the carrier.
    pub track_rod: Rod,
    /// `None`: the axle is not steered.
    pub rack: Option<Rack>,
    /// The spring and the line it acts along.
    pub spring: Spring,
    /// What slides in the strut, or stands beside the spring.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub damper: Option<Damper>,
    /// The anti-roll bar.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub anti_roll_bar: Option<AntiRollBar>,
    /// The half-shaft that drives the wheel.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub half_shaft: Option<HalfShaft>,
    /// The vehicle that loads the axle; see [`Layout::vehicle()`].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub vehicle: Option<Vehicle>,
    /// Bump and rebound stops.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stops: Option<Stops>,
    /// What this car has different from the design, and what it can be adjusted with.
    #[serde(skip)]
    pub changes: Changes,
    /// Parts of the format that are kept as they are and not read yet; see [`validate()`] for their names.
    #[serde(flatten)]
    pub other: BTreeMap<String, serde_json::Value>,
}

/// The wheel at rest.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Wheel {
    /// The wheel centre, mm.
    pub centre: Vec3,
    /// Camber at rest, degrees, positive when the top leans out.
    pub camber: f64,
    /// Toe of this wheel at rest, degrees, toe-in positive.
    pub toe: f64,
    /// Wheel centre to contact point along the wheel plane, mm.
    pub loaded_radius: f64,
    /// Radius of the unloaded tyre, mm; for the picture.
    pub free_radius: f64,
    /// Tyre width, mm; for the picture.
    pub width: f64,
}

/// What holds the carrier above or below the wheel centre; it takes two freedoms.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Guide {
    /// Two body joints and one ball joint on the carrier.
    Wishbone {
        /// Front body joint, mm.
        front: Vec3,
        /// Rear body joint, mm.
        rear: Vec3,
        /// Ball joint on the carrier, mm.
        outer: Vec3,
    },
    /// Two separate arms.
    Arms {
        /// The front arm.
        front: Rod,
        /// The rear arm.
        rear: Rod,
    },
    /// A line fixed in the carrier that slides through the top mount.
    Strut {
        /// Top mount on the body, mm.
        top: Vec3,
        /// A point of the sliding line on the carrier, mm.
        foot: Vec3,
    },
}

/// A rod with a ball joint at either end.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rod {
    /// Joint on the body (or the rack), mm.
    pub inner: Vec3,
    /// Joint on the carrier, mm.
    pub outer: Vec3,
}

/// The steering rack.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Rack {
    /// Stroke each way, mm.
    pub travel: f64,
    /// Stroke per turn of the steering wheel, mm; default 52 (invented, a usual rack's order of size).
    pub per_turn: f64,
    /// What the rack is bolted to; default the subframe.
    pub mount: Mount,
}

impl Rack {
    /// The stroke per turn of a rack that does not give its own, mm.
    pub const PER_TURN: f64 = 52.0;
}

/// What the rack is bolted to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mount {
    /// The subframe that carries the lower arms.
    #[default]
    Subframe,
    /// The body.
    Body,
}

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

impl Layout {
    /// Reads a layout file. Never panics; the sentence says what is wrong with a file that is not one, and where.
    /// Files above [`Layout::MAX_FILE`] bytes are refused unread. The result is not yet validated.
    pub fn from_json(text: &str) -> Result<Layout, String> {
        file::read(text)
    }

    /// The same from JSON that has been parsed.
    pub fn from_value(value: &serde_json::Value) -> Result<Layout, String> {
        file::from_value(value)
    }

    /// The damper, or the default one.
    pub fn damper(&self) -> Damper {
        self.damper.unwrap_or_default()
    }

    /// The vehicle, or the default one.
    pub fn vehicle(&self) -> Vehicle {
        self.vehicle.unwrap_or_default()
    }

    /// The sentence for a file of so many bytes.
    pub fn too_big(bytes: usize) -> String {
        let most = Self::MAX_FILE / 1000;
        format!("This file is {} kB. Layout files are a few kB; files over {most} kB are not read.", bytes / 1000)
    }

    /// The largest layout file that is read, bytes.
    pub const MAX_FILE: usize = 200_000;

    /// The layout file: the same format [`Layout::from_json`] reads.
    pub fn to_json(&self) -> String {
        /// A layout with its changes as files name them, which depends on the axle's kind.
        #[derive(Serialize)]
        struct File<'a> {
            #[serde(flatten)]
            layout: &'a Layout,
            #[serde(flatten)]
            changes: serde_json::Map<String, serde_json::Value>,
        }
        let file = File { layout: self, changes: changed::written(self) };
        // A layout has string keys and numbers only, which always serialise; a number that is not finite becomes null.
        serde_json::to_string_pretty(&file).unwrap_or_default()
    }
}
