//! The equations a layout implies: five guiding constraints and a spring. The only place that knows the axle kinds.

mod constraint;
mod spring;

pub use constraint::Constraint;
pub use spring::{Follower, RockerLine, RockerState, SpringLine};

use crate::frame::{Rotation, Vec3, contact_point, spin_axis};
use crate::layout::{Guide, HalfShaft, Layout, PointId, Problem, Rod, SpringOn, validate};
use crate::math::{Line, Pose, RISE, Twist, matrix};
use nalgebra::Vector6;

/// What a guiding row belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Member {
    /// Front arm, or front leg of the wishbone, of the lower guide.
    LowerFront,
    /// Rear arm or leg of the lower guide.
    LowerRear,
    /// Front arm or leg of the upper guide.
    UpperFront,
    /// Rear arm or leg of the upper guide.
    UpperRear,
    /// The strut.
    Strut,
    /// The track rod.
    TrackRod,
}

/// One guiding row: what it belongs to, what people call that, and its equation.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it belongs to.
    pub member: Member,
    /// Name of the member in messages.
    pub name: &'static str,
    /// Its joints: on the body, on the carrier.
    pub joints: [PointId; 2],
    /// Its equation.
    pub constraint: Constraint,
}

/// A layout, ready to be solved. Carrier points are kept relative to the wheel centre at rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Linkage {
    /// The wheel centre at rest, mm.
    pub centre: Vec3,
    /// Outward spin axis at rest.
    pub spin: Vec3,
    /// Wheel centre to contact point, mm.
    pub loaded_radius: f64,
    /// The contact point at rest, from the wheel centre, mm.
    pub contact_at_rest: Vec3,
    /// The five guiding rows; the last is the track rod's.
    pub rows: [Row; 5],
    /// The spring.
    pub spring: SpringLine,
    /// What it stands on.
    pub spring_on: SpringOn,
    /// How the anti-roll bar's drop link follows, if there is one.
    pub bar: Option<Follower>,
    /// The half-shaft, if there is one.
    pub half_shaft: Option<HalfShaft>,
    /// False when the track rod is bolted to the body.
    pub steered: bool,
    /// Determinant of the guides and the wheel centre's rise at rest; its sign tells the assembly branch.
    pub orientation: f64,
    /// The carrier's motions at rest: per mm of travel with the rack held, per mm of rack with the travel held.
    pub motions: [Twist; 2],
}

/// A spring whose length changes by less than this of the wheel's rise carries nothing.
const LEAST_RATIO: f64 = 1e-4;

/// The index of the track rod's row.
pub const TRACK_ROD: usize = 4;

impl Linkage {
    /// The equations of a layout, or everything that is wrong with it.
    pub fn new(layout: &Layout) -> Result<Linkage, Vec<Problem>> {
        let problems = validate(layout);
        if !problems.is_empty() {
            return Err(problems);
        }
        let centre = layout.wheel.centre;
        let [lower_front, lower_rear] = guide_rows(&layout.lower, centre, LOWER);
        let [upper_front, upper_rear] = guide_rows(&layout.upper, centre, UPPER);
        let track_rod = Row {
            member: Member::TrackRod,
            name: "track rod",
            joints: [PointId::TrackRodInner, PointId::TrackRodOuter],
            constraint: Constraint::rod(&layout.track_rod, centre, layout.rack.is_some()),
        };
        let spin = spin_axis(layout.wheel.camber, layout.wheel.toe);
        let mut linkage = Linkage {
            centre,
            spin,
            loaded_radius: layout.wheel.loaded_radius,
            rows: [lower_front, lower_rear, upper_front, upper_rear, track_rod],
            spring: spring_line(layout),
            spring_on: layout.spring.on,
            bar: layout.anti_roll_bar.map(|bar| follower(layout, bar.on, bar.link)),
            half_shaft: layout.half_shaft,
            steered: layout.rack.is_some(),
            contact_at_rest: contact_point(spin, layout.wheel.loaded_radius),
            orientation: 0.0,
            motions: [Twist::NONE; 2],
        };
        let [a, b, c, d, e] = linkage.guides(&linkage.rest(), 0.0).1;
        let jacobian = matrix(&[a, b, c, d, e, RISE]).lu();
        linkage.orientation = jacobian.determinant();
        let motion = |row, rate| jacobian.solve(&Vector6::ith(row, rate)).map(|twist| Twist::from_vector(&twist));
        let bump = motion(5, 1.0);
        linkage.motions = [bump, motion(TRACK_ROD, e.u.y)].map(|motion| motion.unwrap_or(Twist::NONE));
        let ratio = bump.map(|bump| linkage.spring.evaluate(&linkage.rest()).1.rate(&bump));
        let carried = ratio.filter(|ratio| ratio.is_finite()).is_none_or(|ratio| ratio.abs() > LEAST_RATIO);
        // Guides that do not hold the wheel have a sentence of their own, where they are solved.
        if carried { Ok(linkage) } else { Err(vec![Problem::CarriesNothing]) }
    }

    /// The pose at rest.
    pub fn rest(&self) -> Pose {
        Pose { w: self.centre, r: Rotation::identity() }
    }

    /// Where a point of the layout is at a pose and rack displacement, mm, given where it is at rest. The spring's foot is where
    /// the member it stands on has taken it.
    pub fn place(&self, pose: &Pose, rack: f64, id: PointId, at_rest: Vec3) -> Vec3 {
        match id {
            PointId::SpringFoot => self.spring.foot(pose),
            PointId::RockerRod => self.spring.rocker_at(pose).map_or(at_rest, |rocker| rocker.rod),
            PointId::RockerSpring => self.spring.rocker_at(pose).map_or(at_rest, |rocker| rocker.spring),
            PointId::BarLink => self.bar.as_ref().map_or(at_rest, |bar| bar.foot(pose)),
            PointId::TrackRodInner => at_rest + Vec3::y() * rack,
            id if id.on_carrier() => pose.place(at_rest - self.centre),
            _ => at_rest,
        }
    }

    /// Residual (mm) and Plücker line of each guiding row at a pose.
    pub fn guides(&self, pose: &Pose, rack: f64) -> ([f64; 5], [Line; 5]) {
        let r = pose.r.to_rotation_matrix().into_inner();
        let mut residuals = [0.0; 5];
        let lines = std::array::from_fn(|i| {
            let (residual, line) = self.rows[i].constraint.evaluate(pose.w, &r, rack);
            residuals[i] = residual;
            line
        });
        (residuals, lines)
    }
}

/// A guide's front or rear member: what it is called as an arm and as a wishbone's leg, and its joints: on the body, an arm's on
/// the carrier, the wishbone's on the carrier.
struct Names {
    member: Member,
    arm: &'static str,
    wishbone: &'static str,
    joints: [PointId; 3],
}

const LOWER: [Names; 2] = [
    Names {
        member: Member::LowerFront,
        arm: "lower front arm",
        wishbone: "lower wishbone",
        joints: [PointId::LowerFrontInner, PointId::LowerFrontOuter, PointId::LowerOuter],
    },
    Names {
        member: Member::LowerRear,
        arm: "lower rear arm",
        wishbone: "lower wishbone",
        joints: [PointId::LowerRearInner, PointId::LowerRearOuter, PointId::LowerOuter],
    },
];
const UPPER: [Names; 2] = [
    Names {
        member: Member::UpperFront,
        arm: "upper front arm",
        wishbone: "upper wishbone",
        joints: [PointId::UpperFrontInner, PointId::UpperFrontOuter, PointId::UpperOuter],
    },
    Names {
        member: Member::UpperRear,
        arm: "upper rear arm",
        wishbone: "upper wishbone",
        joints: [PointId::UpperRearInner, PointId::UpperRearOuter, PointId::UpperOuter],
    },
];

/// The two rows of a guide. A wishbone is two rods that share their outer joint; a strut is a line kept on its mount
/// across two directions.
fn guide_rows(guide: &Guide, centre: Vec3, names: [Names; 2]) -> [Row; 2] {
    let rod = |names: &Names, rod: Rod, shared: bool| {
        let [inner, arm, wishbone] = names.joints;
        Row {
            member: names.member,
            name: if shared { names.wishbone } else { names.arm },
            joints: [inner, if shared { wishbone } else { arm }],
            constraint: Constraint::rod(&rod, centre, false),
        }
    };
    let [front, rear] = &names;
    match guide {
        Guide::Arms { front: a, rear: b } => [rod(front, *a, false), rod(rear, *b, false)],
        Guide::Wishbone { front: a, rear: b, outer } => {
            [rod(front, Rod { inner: *a, outer: *outer }, true), rod(rear, Rod { inner: *b, outer: *outer }, true)]
        }
        Guide::Strut { top, foot } => Constraint::strut(*top, *foot, centre).map(|constraint| Row {
            member: Member::Strut,
            name: "strut",
            joints: [PointId::StrutTop, PointId::StrutFoot],
            constraint,
        }),
    }
}

/// The spring's line and what its foot rides on. Called on validated layouts; the strut's own ends stand in for missing ones.
fn spring_line(layout: &Layout) -> SpringLine {
    let strut = match layout.upper {
        Guide::Strut { top, foot } => (top, foot),
        _ => (layout.wheel.centre, layout.wheel.centre),
    };
    let top = layout.spring.top.unwrap_or(strut.0);
    let foot = layout.spring.foot.unwrap_or(strut.1);
    let rocker = layout.spring.rocker.as_ref().map(|rocker| RockerLine::new(rocker, foot));
    SpringLine { top, follower: follower(layout, layout.spring.on, foot), rocker }
}

/// How a point that rides on a part follows the carrier.
fn follower(layout: &Layout, on: SpringOn, foot: Vec3) -> Follower {
    let centre = layout.wheel.centre;
    let arm = |guide: &Guide, front: bool| match guide {
        Guide::Arms { front: rod, .. } if front => Follower::arm(rod, foot, centre),
        Guide::Arms { rear: rod, .. } => Follower::arm(rod, foot, centre),
        _ => Follower::carrier(foot, centre),
    };
    let wishbone = |guide: &Guide| match guide {
        Guide::Wishbone { front, rear, outer } => Follower::wishbone(*front, *rear, *outer, foot, centre),
        _ => Follower::carrier(foot, centre),
    };
    match on {
        SpringOn::Strut | SpringOn::Carrier => Follower::carrier(foot, centre),
        SpringOn::Lower => wishbone(&layout.lower),
        SpringOn::Upper => wishbone(&layout.upper),
        SpringOn::LowerFront => arm(&layout.lower, true),
        SpringOn::LowerRear => arm(&layout.lower, false),
        SpringOn::UpperFront => arm(&layout.upper, true),
        SpringOn::UpperRear => arm(&layout.upper, false),
    }
}
