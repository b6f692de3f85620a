//! The equations a layout implies: five guiding constraints and a spring.

mod constraint;
mod rider;
mod rows;
mod spring;

pub use constraint::Constraint;
pub use rows::Row;
pub use spring::{Follower, RockerLine, RockerState, SpringLine};

use crate::frame::{Rotation, Vec3, contact_point, mirror, spin_axis};
use crate::layout::{Built, HalfShaft, Layout, Member, Part, PointId, Problem, SpringOn, validate};
use crate::math::{Factored, Line, Order, Pose, Twist};
use rider::{follower, spring_line};
use rows::{LOWER, UPPER, guide_rows};

/// A layout, ready to be solved. The carrier's parts are given as the layout draws them: in its axes there, relative to the wheel centre. Where it
/// is built as it is drawn, that is where it is at rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Linkage {
    /// The wheel centre as drawn, mm.
    pub(crate) centre: Vec3,
    /// Outward spin axis as drawn.
    pub(crate) spin: Vec3,
    /// Wheel centre to contact point, mm.
    pub(crate) loaded_radius: f64,
    /// The carrier's point whose rise is the travel, from the wheel centre, mm: the wheel centre of the design; `None` where it is the wheel centre
    /// itself, so that the solver has nothing to turn.
    gauge: Option<Vec3>,
    /// Its height in the design, mm.
    height: f64,
    /// The contact point of the design at rest, mm.
    pub(crate) rest_contact: Vec3,
    /// The carrier at rest: travel 0, rack 0.
    rest: Pose,
    /// The five guiding rows; the last is the track rod's.
    pub(crate) rows: [Row; 5],
    /// The spring.
    pub(crate) spring: SpringLine,
    /// What it stands on.
    pub(crate) spring_on: SpringOn,
    /// How the anti-roll bar's drop link follows, if there is one, and what it rides on.
    pub(crate) bar: Option<(Follower, SpringOn)>,
    /// The half-shaft, if there is one.
    pub(crate) half_shaft: Option<HalfShaft>,
    /// False when the track rod is bolted to the body.
    pub(crate) steered: bool,
    /// Determinant of the guides and the wheel centre's rise at rest; its sign tells the assembly branch.
    pub(crate) orientation: f64,
    /// In which order guides and rise are factored there; it serves nearby, too.
    pub(crate) order: Order,
    /// The carrier's motions at rest: per mm of travel with the rack held, per mm of rack with the travel held.
    pub(crate) motions: [Twist; 2],
}

/// A spring whose length changes by less than this of the wheel's rise carries nothing.
const LEAST_RATIO: f64 = 1e-4;

/// The index of the track rod's row.
pub const TRACK_ROD: usize = 4;

/// The carrier's motions where guides and rise are factored: per mm of travel with the rack held, per mm of rack with the travel held. None where
/// they depend on each other, which a solved position has been checked for.
pub(crate) fn motions(jacobian: &Factored, rack_rate: f64) -> [Twist; 2] {
    [[0.0, 0.0, 0.0, 0.0, 0.0, 1.0], [0.0, 0.0, 0.0, 0.0, rack_rate, 0.0]]
        .map(|rates| jacobian.twist(&rates).unwrap_or(Twist::NONE))
}

impl Linkage {
    /// The equations of a layout, or everything that is wrong with it.
    pub fn new(layout: &Layout) -> Result<Linkage, Vec<Problem>> {
        let problems = validate(layout);
        if !problems.is_empty() {
            return Err(problems);
        }
        let mut linkage = Linkage::drawn(layout);
        linkage.settle(linkage.rest);
        let [bump, _] = linkage.motions;
        let ratio = linkage.spring.evaluate(&linkage.rest).1.rate(&bump);
        // Guides that do not hold the wheel (no motion) have a sentence of their own, where they are solved.
        let carried = bump == Twist::NONE || !ratio.is_finite() || ratio.abs() > LEAST_RATIO;
        if carried { Ok(linkage) } else { Err(vec![Problem::CarriesNothing]) }
    }

    /// The equations of a layout that has been checked, or differs from one by next to nothing; nothing is solved, so neither branch nor motions at
    /// rest are known.
    pub(crate) fn drawn(layout: &Layout) -> Linkage {
        let centre = layout.wheel.centre;
        let [lower_front, lower_rear] = guide_rows(&layout.lower, centre, LOWER);
        let [upper_front, upper_rear] = guide_rows(&layout.upper, centre, UPPER);
        let track_rod = Row {
            member: Member::TrackRod,
            part: Part::TrackRod,
            joints: [PointId::TrackRodInner, PointId::TrackRodOuter],
            constraint: Constraint::rod(&layout.track_rod, centre, layout.rack.as_ref().map(|_| Vec3::y())),
        };
        let spin = spin_axis(layout.wheel.camber, layout.wheel.toe);
        Linkage {
            centre,
            spin,
            loaded_radius: layout.wheel.loaded_radius,
            rows: [lower_front, lower_rear, upper_front, upper_rear, track_rod],
            spring: spring_line(layout),
            spring_on: layout.spring.on,
            bar: layout.anti_roll_bar.map(|bar| (follower(layout, bar.on, bar.link), bar.on)),
            half_shaft: layout.half_shaft,
            steered: layout.rack.is_some(),
            gauge: None,
            height: centre.z,
            rest_contact: centre + contact_point(spin, layout.wheel.loaded_radius),
            rest: Pose { w: centre, r: Rotation::identity() },
            orientation: 0.0,
            order: Order::default(),
            motions: [Twist::NONE; 2],
        }
    }

    /// Takes a pose as that at rest: the branch and the motions there are what every other pose is told by.
    pub(crate) fn settle(&mut self, rest: Pose) {
        self.rest = rest;
        let guides = self.guides(&rest, 0.0).1;
        let [a, b, c, d, e] = guides;
        let jacobian = Factored::of(&[a, b, c, d, e, self.rise(&rest)]);
        (self.orientation, self.order) = (jacobian.determinant(), jacobian.order());
        self.motions = motions(&jacobian, self.rack_rate(&guides));
    }

    /// Rise over its height in the design of the carrier's point that is the wheel centre there, mm.
    pub fn travel(&self, pose: &Pose) -> f64 {
        pose.w.z + self.gauge.map_or(0.0, |gauge| (pose.r * gauge).z) - self.height
    }

    /// The pose that has the design's wheel centre, a point of the carrier, where another linkage of the same design has it at a pose of its own.
    pub(crate) fn with_gauge_at(&self, other: &Linkage, pose: &Pose) -> Pose {
        let [theirs, ours] = [other.gauge, self.gauge].map(Option::unwrap_or_default);
        Pose { w: pose.w + pose.r * (theirs - ours), r: pose.r }
    }

    /// The row of that rise.
    pub fn rise(&self, pose: &Pose) -> Line {
        Line::through(self.gauge.map_or_else(Vec3::zeros, |gauge| pose.r * gauge), Vec3::z())
    }

    /// How fast the rack's way shortens the track rod, given the guides' lines, mm per mm; 0 without a rack.
    pub(crate) fn rack_rate(&self, guides: &[Line; 5]) -> f64 {
        self.rows[TRACK_ROD].constraint.rack_rate(&guides[TRACK_ROD])
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

    /// The design's linkage with what one side has different from it: other lengths, joints elsewhere on their parts, another wheel on another
    /// carrier. The pose answers: until [`settled`](crate::settled) its rest is the carrier as drawn, which closes no changed linkage.
    pub fn stretched(&self, built: &Built) -> Linkage {
        let mut new = self.clone();
        for row in &mut new.rows {
            let [inner_by, outer_by] = row.joints.map(|id| built.shift(id));
            match &mut row.constraint {
                Constraint::Rod { inner, outer, length, stroke } => {
                    *inner += inner_by;
                    *outer += outer_by - built.out;
                    *length += built.length(row.member);
                    *stroke = stroke.map(|_| built.stroke);
                }
                Constraint::Slide { top, foot, across, .. } => {
                    let line = *top - self.centre - *foot;
                    let bent = Rotation::rotation_between(&line, &(line + built.bend())).unwrap_or_default();
                    *across = bent * *across;
                    *top += inner_by;
                    *foot -= built.out;
                }
            }
        }
        new.spring.top += built.shift(PointId::SpringTop);
        new.spring.follower = new.follows(&self.spring.follower, self.spring_on, built);
        new.bar = self.bar.as_ref().map(|(follower, on)| (new.follows(follower, *on, built), *on));
        new.centre += built.out;
        if built.out != Vec3::zeros() {
            new.gauge = Some(self.gauge.unwrap_or_default() - built.out);
        }
        (new.spin, new.loaded_radius) = (built.spin, built.loaded_radius);
        new.rest.w += built.out;
        new
    }

    /// The mirror image of the guides, for the law that what solves them obeys the mirror. Spring and bar are not mirrored.
    #[doc(hidden)]
    pub fn mirrored_guides(&self) -> Linkage {
        let mut image = self.clone();
        image.centre = mirror(image.centre);
        image.spin = mirror(image.spin);
        image.orientation = -image.orientation;
        image.rest_contact = mirror(image.rest_contact);
        image.gauge = image.gauge.map(mirror);
        image.rest.w = mirror(image.rest.w);
        // A turn is mirrored the other way round; the image's rack moves to the other side.
        let [bump, steer] = image.motions;
        image.motions = [(bump, 1.0), (steer, -1.0)]
            .map(|(motion, k)| Twist { v: mirror(motion.v) * k, omega: mirror(motion.omega) * -k });
        for row in &mut image.rows {
            match &mut row.constraint {
                Constraint::Rod { inner, outer, .. } => (*inner, *outer) = (mirror(*inner), mirror(*outer)),
                Constraint::Slide { top, foot, across, .. } => {
                    (*top, *foot, *across) = (mirror(*top), mirror(*foot), mirror(*across));
                }
            }
        }
        image
    }

    /// The pose at rest.
    pub fn rest(&self) -> Pose {
        self.rest
    }

    /// Where a point of the layout is at a pose and rack displacement, mm, given where it is drawn on its part (see [`Built::layout`]). The spring's
    /// foot is where the member it stands on has taken it.
    pub fn place(&self, pose: &Pose, rack: f64, id: PointId, drawn: Vec3) -> Vec3 {
        match id {
            PointId::SpringFoot => self.spring.foot(pose),
            PointId::RockerRod => self.spring.rocker_at(pose).map_or(drawn, |rocker| rocker.rod),
            PointId::RockerSpring => self.spring.rocker_at(pose).map_or(drawn, |rocker| rocker.spring),
            PointId::BarLink => self.bar.as_ref().map_or(drawn, |(bar, _)| bar.foot(pose)),
            PointId::TrackRodInner => {
                let rod = &self.rows[TRACK_ROD].constraint;
                drawn + (rod.inner_at(rack) - rod.inner_at(0.0))
            }
            id if id.on_carrier() => pose.place(drawn - self.centre),
            _ => drawn,
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
