//! Changes: what a car has different from its design, per side; and with what it can be adjusted.
//!
//! In a layout every joint is given at rest, so whatever joint is moved, camber and toe at rest stay as they were: right at a drawing board, wrong
//! under a car. A change says what was done to a part; lengths are kept and the wheel follows. No change at all gives the design back to the last
//! digit. The right wheel's changes are written as if it were a left one: +y outboard, toe-in positive; those of `both` are mirrored, and left and
//! right add up with `both`.

use super::{Guide, Layout, Member, PointId};
use crate::frame::Vec3;
use std::collections::BTreeMap;

/// One thing that can be different from the design.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Change {
    /// Length of a rod or of a wishbone's leg, mm; its joints stay where they are on the other parts.
    Length(Member),
    /// A bent strut: its sliding line turned on the carrier about the strut's foot so that, in the carrier's rest axes, it passes the design's top
    /// mount moved by so much along x (0) or y (1), mm. The mount stays.
    StrutLine(usize),
    /// A joint that sits elsewhere on its part, along x, y or z (0, 1, 2) of that part as it lies at rest, mm; every length stays. A joint on the body
    /// moves in the body, the track rod's inner joint on the rack bar (on the body without a rack), an outer joint on the carrier.
    Joint(PointId, usize),
    /// A bent or adjusted carrier: added to the design's camber, degrees; the wheel centre stays.
    CarrierCamber,
    /// The same of toe, degrees, toe-in positive.
    CarrierToe,
    /// The wheel sits further out along its spin axis, mm.
    Spacer,
    /// A rim of another offset, mm; positive sits further in along the spin axis.
    Offset,
    /// Difference of tyre width, mm.
    Width,
    /// Difference of the tyre's free radius, mm.
    FreeRadius,
    /// Difference of the loaded radius, mm: the wheel centre stays and the road lies lower.
    LoadedRadius,
    /// The subframe with all it carries, along x (0) or y (1) of the car, mm.
    Subframe(usize),
    /// The same turned to the left about the vertical through x = y = 0, degrees.
    SubframeYaw,
    /// Travel at which the car stands, mm, positive when it stands lower.
    Ride,
}

/// Lengths and places that were changed by more than this, mm, are slips.
const MOST_LENGTH: f64 = 100.0;
/// The same of the tyre's measures.
const MOST_TYRE: f64 = 300.0;
/// The same of angles, degrees.
const MOST_ANGLE: f64 = 20.0;
/// The greatest travel at which a car can be said to stand, mm.
const MOST_RIDE: f64 = 200.0;

const AXES: [&str; 3] = ["x", "y", "z"];

/// The rods, with their names in files and links.
const RODS: [(Member, &str, &str); 5] = [
    (Member::LowerFront, "lower.front", "lf"),
    (Member::LowerRear, "lower.rear", "lr"),
    (Member::UpperFront, "upper.front", "uf"),
    (Member::UpperRear, "upper.rear", "ur"),
    (Member::TrackRod, "track_rod", "tr"),
];

impl Member {
    /// What people call it on this axle.
    pub fn name(self, layout: &Layout) -> &'static str {
        let leg = |guide: &Guide, leg, arm| if matches!(guide, Guide::Wishbone { .. }) { leg } else { arm };
        match self {
            Member::LowerFront => leg(&layout.lower, "lower wishbone’s front leg", "lower front arm"),
            Member::LowerRear => leg(&layout.lower, "lower wishbone’s rear leg", "lower rear arm"),
            Member::UpperFront => leg(&layout.upper, "upper wishbone’s front leg", "upper front arm"),
            Member::UpperRear => leg(&layout.upper, "upper wishbone’s rear leg", "upper rear arm"),
            Member::Strut => "strut",
            Member::TrackRod => "track rod",
        }
    }

    /// The path of a member in layout files; a strut's is `upper`.
    pub fn path(self) -> &'static str {
        RODS.iter().find(|(member, ..)| *member == self).map_or("upper", |(_, path, _)| path)
    }
}

impl Change {
    /// Everything that can be different on this axle, in the order of tables.
    pub fn all(layout: &Layout) -> Vec<Change> {
        let strut = matches!(layout.upper, Guide::Strut { .. });
        let rods = RODS.iter().map(|(member, ..)| *member);
        let rods = rods.filter(|member| !(strut && matches!(member, Member::UpperFront | Member::UpperRear)));
        let bends = (0..2).filter(|_| strut).map(Change::StrutLine);
        let joints = layout.points().map(|(id, _)| id).filter(|id| id.is_joint());
        let places = joints.flat_map(|id| (0..3).map(move |axis| Change::Joint(id, axis)));
        rods.map(Change::Length).chain(bends).chain(places).chain(Change::OF_EVERY_AXLE).collect()
    }

    /// What every axle has.
    const OF_EVERY_AXLE: [Change; 11] = [
        Change::CarrierCamber,
        Change::CarrierToe,
        Change::Spacer,
        Change::Offset,
        Change::Width,
        Change::FreeRadius,
        Change::LoadedRadius,
        Change::Subframe(0),
        Change::Subframe(1),
        Change::SubframeYaw,
        Change::Ride,
    ];

    /// Its name in this axle's files and tables.
    pub fn name(self, layout: &Layout) -> String {
        match self {
            Change::Length(member) => format!("length.{}", member.path()),
            Change::StrutLine(axis) => format!("length.strut.{}", AXES[axis]),
            Change::Joint(id, axis) => format!("build.{}.{}", id.path(layout), AXES[axis]),
            Change::CarrierCamber => "carrier.camber".into(),
            Change::CarrierToe => "carrier.toe".into(),
            Change::Spacer => "wheel.spacer".into(),
            Change::Offset => "wheel.offset".into(),
            Change::Width => "wheel.width".into(),
            Change::FreeRadius => "wheel.free_radius".into(),
            Change::LoadedRadius => "wheel.loaded_radius".into(),
            Change::Subframe(axis) => format!("subframe.{}", AXES[axis]),
            Change::SubframeYaw => "subframe.yaw".into(),
            Change::Ride => "ride".into(),
        }
    }

    /// The change of this axle that a name says.
    pub fn named(name: &str, layout: &Layout) -> Option<Change> {
        Change::all(layout).into_iter().find(|change| change.name(layout) == name)
    }

    /// Its code in links.
    pub fn code(self) -> String {
        let rod = |member| RODS.iter().find(|(rod, ..)| *rod == member).map_or("", |(.., code)| code);
        match self {
            Change::Length(member) => format!("l{}", rod(member)),
            Change::StrutLine(axis) => format!("ls{}", AXES[axis]),
            Change::Joint(id, axis) => format!("{}{}", id.code(), AXES[axis]),
            Change::CarrierCamber => "cc".into(),
            Change::CarrierToe => "ct".into(),
            Change::Spacer => "ws".into(),
            Change::Offset => "wo".into(),
            Change::Width => "ww".into(),
            Change::FreeRadius => "wf".into(),
            Change::LoadedRadius => "wl".into(),
            Change::Subframe(axis) => format!("f{}", AXES[axis]),
            Change::SubframeYaw => "fa".into(),
            Change::Ride => "rh".into(),
        }
    }

    /// The change of this axle that a code says.
    pub fn coded(code: &str, layout: &Layout) -> Option<Change> {
        Change::all(layout).into_iter().find(|change| change.code() == code)
    }

    /// What people call it on this axle, to stand behind “the”.
    pub fn label(self, layout: &Layout) -> String {
        match self {
            Change::Length(member) => format!("length of the {}", member.name(layout)),
            Change::StrutLine(axis) => format!("strut’s bend along {}", AXES[axis]),
            Change::Joint(id, axis) => format!("{}, {}", id.name(), AXES[axis]),
            Change::CarrierCamber => "carrier’s camber".into(),
            Change::CarrierToe => "carrier’s toe".into(),
            Change::Spacer => "wheel spacer".into(),
            Change::Offset => "change of rim offset".into(),
            Change::Width => "change of tyre width".into(),
            Change::FreeRadius => "change of the tyre’s free radius".into(),
            Change::LoadedRadius => "change of the loaded radius".into(),
            Change::Subframe(axis) => format!("subframe’s shift along {}", AXES[axis]),
            Change::SubframeYaw => "subframe’s turn to the left".into(),
            Change::Ride => "ride height".into(),
        }
    }

    /// Its unit.
    pub fn unit(self) -> &'static str {
        if matches!(self, Change::CarrierCamber | Change::CarrierToe | Change::SubframeYaw) { "°" } else { "mm" }
    }

    /// The least and the greatest that it may be.
    pub fn range(self) -> [f64; 2] {
        let most = match self {
            Change::CarrierCamber | Change::CarrierToe | Change::SubframeYaw => MOST_ANGLE,
            Change::Width | Change::FreeRadius | Change::LoadedRadius => MOST_TYRE,
            Change::Ride => MOST_RIDE,
            _ => MOST_LENGTH,
        };
        [-most, most]
    }

    /// True for what the whole car has, and no side of its own.
    pub fn of_both(self) -> bool {
        matches!(self, Change::Subframe(_) | Change::SubframeYaw | Change::Ride)
    }
}

impl PointId {
    /// True for a joint of a member that guides the wheel, which can sit elsewhere on its part; a strut's foot only names a point of its line.
    pub fn is_joint(self) -> bool {
        use PointId::*;
        let body = [LowerFrontInner, LowerRearInner, UpperFrontInner, UpperRearInner, StrutTop, TrackRodInner];
        body.contains(&self) || self.on_carrier() && !matches!(self, StrutFoot | WheelCentre | ShaftOuter)
    }

    /// Where a point stands in the layout's file.
    pub fn path(self, layout: &Layout) -> &'static str {
        use PointId::*;
        let bone = |guide: &Guide, bone, arm| if matches!(guide, Guide::Wishbone { .. }) { bone } else { arm };
        match self {
            LowerFrontInner => bone(&layout.lower, "lower.front", "lower.front.inner"),
            LowerRearInner => bone(&layout.lower, "lower.rear", "lower.rear.inner"),
            UpperFrontInner => bone(&layout.upper, "upper.front", "upper.front.inner"),
            UpperRearInner => bone(&layout.upper, "upper.rear", "upper.rear.inner"),
            LowerFrontOuter => "lower.front.outer",
            LowerRearOuter => "lower.rear.outer",
            LowerOuter => "lower.outer",
            UpperFrontOuter => "upper.front.outer",
            UpperRearOuter => "upper.rear.outer",
            UpperOuter => "upper.outer",
            StrutTop => "upper.top",
            StrutFoot => "upper.foot",
            TrackRodInner => "track_rod.inner",
            TrackRodOuter => "track_rod.outer",
            SpringTop => "spring.top",
            SpringFoot => "spring.foot",
            WheelCentre => "wheel.centre",
            ShaftInner => "half_shaft.inner",
            ShaftOuter => "half_shaft.outer",
            BarPivot => "anti_roll_bar.pivot",
            BarLever => "anti_roll_bar.lever",
            BarLink => "anti_roll_bar.link",
            RockerPivot => "spring.rocker.pivot",
            RockerRod => "spring.rocker.rod",
            RockerSpring => "spring.rocker.spring",
        }
    }
}

/// A wheel of the car.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum LeftOrRight {
    /// The left one, which a layout describes.
    #[default]
    Left,
    /// The right one, told as if it were a left one.
    Right,
}

impl LeftOrRight {
    /// Left and right.
    pub const BOTH: [LeftOrRight; 2] = [LeftOrRight::Left, LeftOrRight::Right];

    /// “left” or “right”.
    pub fn name(self) -> &'static str {
        if self == LeftOrRight::Left { "left" } else { "right" }
    }

    /// 0 for left, 1 for right.
    pub fn index(self) -> usize {
        usize::from(self == LeftOrRight::Right)
    }
}

/// What a set of changes is called in files.
pub(super) const SETS: [&str; 3] = ["both", "left", "right"];

/// What a car has different from the design, and what it can be adjusted with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Changes {
    /// Of both sides alike, of the left one, of the right one; a change that is none is left out.
    sets: [BTreeMap<Change, f64>; 3],
    /// What a workshop can set.
    pub adjusters: Vec<Adjuster>,
    /// The travel at which the bush at a member's inner joint was tightened, mm, where it is not that at which the car stands.
    pub tightened: BTreeMap<Member, f64>,
}

/// Something that a workshop can set.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjuster {
    /// What it changes.
    pub set: Adjusted,
    /// The least and the greatest that it goes to, mm from the design.
    pub range: [f64; 2],
    /// mm per turn, where it is a thread.
    pub pitch: Option<f64>,
    /// mm of a shim, where only whole ones go in.
    pub step: Option<f64>,
}

/// What an adjuster changes.
#[derive(Clone, Debug, PartialEq)]
pub enum Adjusted {
    /// One change.
    Change(Change),
    /// A joint moved along a direction in the rest axes of its part: a slot, or shims under it. The direction has length 1.
    Along(PointId, Vec3),
}

/// Which sides a change is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Sides {
    /// Both, mirrored.
    Both,
    /// One.
    One(LeftOrRight),
}

impl Sides {
    /// Both, left, right.
    pub const ALL: [Sides; 3] = [Sides::Both, Sides::One(LeftOrRight::Left), Sides::One(LeftOrRight::Right)];

    /// What it is called in files.
    pub fn key(self) -> &'static str {
        SETS[self.index()]
    }

    fn index(self) -> usize {
        match self {
            Sides::Both => 0,
            Sides::One(side) => 1 + side.index(),
        }
    }
}

impl Changes {
    /// True without any change, adjuster or tightened bush.
    pub fn is_empty(&self) -> bool {
        *self == Changes::default()
    }

    /// A change of both sides, or of one over them; 0 for none.
    pub fn get(&self, of: Sides, change: Change) -> f64 {
        self.sets[of.index()].get(&change).copied().unwrap_or_default()
    }

    /// Sets a change; 0 takes it back. What the whole car has is of both sides.
    pub fn set(&mut self, of: Sides, change: Change, by: f64) {
        let of = if change.of_both() { Sides::Both } else { of };
        if by == 0.0 {
            self.sets[of.index()].remove(&change);
        } else {
            self.sets[of.index()].insert(change, by);
        }
    }

    /// Every change, those of both sides first.
    pub fn iter(&self) -> impl Iterator<Item = (Sides, Change, f64)> + '_ {
        Sides::ALL.into_iter().flat_map(|of| self.sets[of.index()].iter().map(move |(change, by)| (of, *change, *by)))
    }

    /// What one side has different, both sides' share included, as if it were a left one: what the whole car has is mirrored for the right.
    pub fn of(&self, side: LeftOrRight) -> BTreeMap<Change, f64> {
        let mut all = self.sets[0].clone();
        for (change, by) in &mut all {
            if side == LeftOrRight::Right && matches!(change, Change::Subframe(1) | Change::SubframeYaw) {
                *by = -*by;
            }
        }
        for (change, by) in &self.sets[1 + side.index()] {
            *all.entry(*change).or_default() += by;
        }
        all.retain(|_, by| *by != 0.0);
        all
    }

    /// The travel at which the car stands, mm.
    pub fn ride(&self) -> f64 {
        self.get(Sides::Both, Change::Ride)
    }
}
