//! A layout: the axle as plain data, all points at rest (travel 0, rack 0). Format version 1.
//!
//! Fields are public and unchecked; [`validate()`] lists everything that is wrong with one.

mod amount;
mod built;
mod bulk;
mod change;
mod changed;
mod changed_check;
mod changes;
mod entry;
mod few;
pub mod field;
mod file;
mod json;
mod kinds;
mod lengths;
mod member;
mod obstacle;
mod parts;
mod path;
mod point;
mod problem;
mod softness;
mod solid;
mod spring;
mod stiffness;
mod subframe;
mod tyre;
mod usual;
mod validate;
mod words;
mod yielding;

pub use amount::Amount;
pub use built::Built;
pub use bulk::Bulk;
pub use change::Change;
pub use changes::{Adjusted, Adjuster, Changes, LeftOrRight, Sides};
pub use few::Few;
pub use field::LIMIT;
pub use kinds::Level;
pub use member::{Member, Part};
pub use obstacle::Obstacle;
pub use parts::{AntiRollBar, Damper, Drive, HalfShaft, RollFrom, Stops, Vehicle};
pub use point::PointId;
pub use problem::Problem;
pub use solid::Solid;
pub use spring::{Rocker, Spring, SpringOn};
pub use stiffness::{Anchor, Bush};
pub use subframe::{Subframe, SubframeMount};
pub use tyre::TyreSize;
pub use validate::{LONGEST_NAME, LONGEST_NOTE, validate};
pub use words::{clean, clean_lines, clip};
pub use yielding::Yielding;

pub(crate) use entry::{Entry, Read};
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
    /// What gives way where the guides are held and along members; what has no entry is rigid.
    #[serde(skip_serializing_if = "Few::is_empty")]
    pub stiffness: Few<Anchor, Bush>,
    /// The subframe on its mounts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub subframe: Option<Subframe>,
    /// What of the car stands in the way.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub boxes: Vec<Obstacle>,
    /// How thick parts are, and where bent arms run; see [`Layout::solid()`].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub solid: Option<Solid>,
    /// Parts of a name that the format knows and of a shape that it does not, as a link brought them: carried along and not read.
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
    /// Radius of the unloaded tyre, mm.
    pub free_radius: f64,
    /// Tyre width, mm.
    pub width: f64,
    /// Inside radius of the rim's barrel, mm; see [`Wheel::rim_radius()`].
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rim_radius: Option<f64>,
}

impl Wheel {
    /// Radius of the tyre's rounded shoulders, mm: 40, less for a small tyre.
    pub fn shoulder(&self) -> f64 {
        40.0_f64.min(self.width / 2.0).min(self.free_radius / 2.0)
    }

    /// Radius of the tyre's flat flank, mm: the barrel can't be wider.
    pub fn flank(&self) -> f64 {
        self.free_radius - self.shoulder()
    }

    /// Inside radius of the rim's barrel, mm; default 0.58 of the free radius (invented, of the usual size).
    pub fn rim_radius(&self) -> f64 {
        self.rim_radius.unwrap_or(0.58 * self.free_radius).min(self.flank())
    }
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

impl Mount {
    /// Every choice with its name in files and links.
    pub const ALL: [(Mount, &'static str); 2] = [(Mount::Subframe, "subframe"), (Mount::Body, "body")];
}

/// A part as a file has it: string keys and numbers only, which always serialise.
fn written<T: Serialize>(part: &T) -> serde_json::Value {
    serde_json::to_value(part).unwrap_or_default()
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

    /// What gives way, the subframe, boxes, what is solid, and the parts that are kept unread, by their names in files, as a file has them.
    pub fn loose_parts(&self) -> BTreeMap<String, serde_json::Value> {
        let mut parts = self.other.clone();
        let typed = [
            ("stiffness", (!self.stiffness.is_empty()).then(|| written(&self.stiffness))),
            ("subframe", self.subframe.as_ref().map(written)),
            ("boxes", (!self.boxes.is_empty()).then(|| written(&self.boxes))),
            ("solid", self.solid.as_ref().map(written)),
        ];
        parts.extend(typed.into_iter().filter_map(|(name, value)| Some((name.to_string(), value?))));
        parts
    }

    /// Puts such a part into a layout, as a file would; the sentence says what is wrong with it.
    pub fn put_loose_part(&mut self, name: &str, value: serde_json::Value) -> Result<(), String> {
        file::put(self, name, value)
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
