//! One thing that can be different from the design: what it is called, in what unit it is told, how far it may go.

use super::{Guide, Layout, Member, PointId};

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
    /// The rods and wishbones' legs, which have a length.
    pub const RODS: [Member; 5] =
        [Member::LowerFront, Member::LowerRear, Member::UpperFront, Member::UpperRear, Member::TrackRod];

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
