//! The equations a layout implies: five guiding constraints and a spring.

mod constraint;
mod rows;
mod spring;

pub use constraint::Constraint;
pub use rows::Row;
pub use spring::{Follower, RockerLine, RockerState, SpringLine};

use crate::frame::{Rotation, Vec3, contact_point, mirror, spin_axis};
use crate::layout::{Guide, HalfShaft, Layout, Member, Part, PointId, Problem, SpringOn, validate};
use crate::math::{Line, Pose, RISE, Twist, matrix};
use nalgebra::Vector6;
use rows::{LOWER, UPPER, guide_rows};

/// A layout, ready to be solved. Carrier points are kept relative to the wheel centre at rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Linkage {
    /// The wheel centre at rest, mm.
    pub(crate) centre: Vec3,
    /// Outward spin axis at rest.
    pub(crate) spin: Vec3,
    /// Wheel centre to contact point, mm.
    pub(crate) loaded_radius: f64,
    /// The contact point at rest, from the wheel centre, mm.
    pub(crate) contact_at_rest: Vec3,
    /// The five guiding rows; the last is the track rod's.
    pub(crate) rows: [Row; 5],
    /// The spring.
    pub(crate) spring: SpringLine,
    /// What it stands on.
    pub(crate) spring_on: SpringOn,
    /// How the anti-roll bar's drop link follows, if there is one.
    pub(crate) bar: Option<Follower>,
    /// The half-shaft, if there is one.
    pub(crate) half_shaft: Option<HalfShaft>,
    /// False when the track rod is bolted to the body.
    pub(crate) steered: bool,
    /// Determinant of the guides and the wheel centre's rise at rest; its sign tells the assembly branch.
    pub(crate) orientation: f64,
    /// The carrier's motions at rest: per mm of travel with the rack held, per mm of rack with the travel held.
    pub(crate) motions: [Twist; 2],
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
            part: Part::TrackRod,
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

    /// The five guiding rows; the last is the track rod's.
    pub fn rows(&self) -> &[Row; 5] {
        &self.rows
    }

    /// The parts that guide the wheel, each with its rows and the place of the first of them: an arm or the track rod has one, a wishbone and a
    /// strut have two.
    pub fn parts(&self) -> impl Iterator<Item = (usize, &[Row])> {
        let mut first = 0;
        self.rows.chunk_by(|a, b| a.part == b.part).map(move |rows| {
            first += rows.len();
            (first - rows.len(), rows)
        })
    }

    /// The part that carries the spring's foot; `None` where the carrier does.
    pub fn spring_part(&self) -> Option<Part> {
        Part::under(self.spring_on)
    }

    /// The spring.
    pub fn spring(&self) -> &SpringLine {
        &self.spring
    }

    /// What the spring is mounted on.
    pub fn spring_on(&self) -> SpringOn {
        self.spring_on
    }

    /// The same linkage with members longer by so many mm, joints where they are on their parts: the pose answers. A wishbone's legs are two
    /// members; a strut and the rest position of the layout stay.
    pub fn stretched(&self, changes: &[(Member, f64)]) -> Linkage {
        let mut changed = self.clone();
        for row in &mut changed.rows {
            let by: f64 = changes.iter().filter(|(member, _)| *member == row.member).map(|(_, by)| by).sum();
            if let Constraint::Rod { length, .. } = &mut row.constraint {
                *length += by;
            }
        }
        changed
    }

    /// The mirror image of the guides, for the law that what solves them obeys the mirror. Spring and bar are not mirrored.
    #[doc(hidden)]
    pub fn mirrored_guides(&self) -> Linkage {
        let mut image = self.clone();
        image.centre = mirror(image.centre);
        image.spin = mirror(image.spin);
        image.orientation = -image.orientation;
        image.contact_at_rest = mirror(image.contact_at_rest);
        // A turn is mirrored the other way round; the image's rack moves to the other side.
        let [bump, steer] = image.motions;
        image.motions = [(bump, 1.0), (steer, -1.0)]
            .map(|(motion, k)| Twist { v: mirror(motion.v) * k, omega: mirror(motion.omega) * -k });
        for row in &mut image.rows {
            match &mut row.constraint {
                Constraint::Rod { inner, outer, .. } => (*inner, *outer) = (mirror(*inner), mirror(*outer)),
                Constraint::Slide { top, foot, across } => {
                    (*top, *foot, *across) = (mirror(*top), mirror(*foot), mirror(*across));
                }
            }
        }
        image
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
