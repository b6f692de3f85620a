//! One side as it is built: its changes, resolved to what becomes of each joint, length and the wheel.

use super::{Anchor, Change, Few, Guide, Layout, LeftOrRight, Member, PointId, Rod};
use crate::frame::{Vec3, spin_axis};
use nalgebra::Rotation3;

/// What one side has different from its design, seen as a left one. Lengths mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Built {
    changes: Few<Change, f64>,
    shifts: Vec<(PointId, Vec3)>,
    /// The outward spin axis, carrier changes in it.
    pub spin: Vec3,
    /// From the design's wheel centre to the wheel's, on the carrier.
    pub out: Vec3,
    /// Wheel centre to contact point.
    pub loaded_radius: f64,
    /// Direction of the rack's stroke, to the left of the car.
    pub stroke: Vec3,
}

impl Built {
    /// One side of a layout.
    pub fn of(layout: &Layout, side: LeftOrRight) -> Built {
        Built::with(layout, layout.changes.of(side))
    }

    /// A left side with these changes.
    pub fn with(layout: &Layout, changes: Few<Change, f64>) -> Built {
        let by = |change| changes.get(&change).copied().unwrap_or_default();
        let spin =
            spin_axis(layout.wheel.camber + by(Change::CarrierCamber), layout.wheel.toe + by(Change::CarrierToe));
        let out = spin * (by(Change::Spacer) - by(Change::Offset));
        let loaded_radius = layout.wheel.loaded_radius + by(Change::LoadedRadius);
        let turn = Rotation3::from_axis_angle(&Vec3::z_axis(), by(Change::SubframeYaw).to_radians());
        let moved = [Change::Subframe(0), Change::Subframe(1), Change::SubframeYaw].into_iter().any(|c| by(c) != 0.0);
        let along = Vec3::new(by(Change::Subframe(0)), by(Change::Subframe(1)), 0.0);
        let shift = |(id, at): (PointId, Vec3)| {
            let own = Vec3::from_fn(|axis, _| by(Change::Joint(id, axis)));
            let carried = moved && layout.on_subframe(id);
            let shift = if carried { turn * (at + own) + along - at } else { own };
            (shift != Vec3::zeros()).then_some((id, shift))
        };
        let mut shifts: Vec<_> = layout.points().filter(|(id, _)| id.is_joint()).filter_map(shift).collect();
        if layout.spring.top.is_none() {
            // A spring without a line of its own ends at the strut's top mount, moved or not.
            let mount = shifts.iter().find(|(id, _)| *id == PointId::StrutTop).copied();
            shifts.extend(mount.map(|(_, shift)| (PointId::SpringTop, shift)));
        }
        let rack_moves = moved && layout.rack.is_some() && layout.would_carry(Anchor::Rack);
        let stroke = if rack_moves { turn * Vec3::y() } else { Vec3::y() };
        Built { changes, shifts, spin, out, loaded_radius, stroke }
    }

    /// True without any difference of parts; where the car stands is none.
    pub fn is_design(&self) -> bool {
        self.changes.iter().all(|(change, _)| *change == Change::Ride)
    }

    /// The same with a part of every change, 0 for the design, 1 for all.
    pub fn part(&self, layout: &Layout, part: f64) -> Built {
        Built::with(layout, self.changes.iter().map(|(change, by)| (*change, by * part)).collect())
    }

    /// How much of a change there is.
    pub fn by(&self, change: Change) -> f64 {
        self.changes.get(&change).copied().unwrap_or_default()
    }

    /// By how much a rod or a wishbone's leg is longer.
    pub fn length(&self, member: Member) -> f64 {
        self.by(Change::Length(member))
    }

    /// Where a joint sits on its part, from its place in the design, in the part's axes at rest.
    pub fn shift(&self, id: PointId) -> Vec3 {
        self.shifts.iter().find(|(joint, _)| *joint == id).map_or_else(Vec3::zeros, |(_, shift)| *shift)
    }

    /// How far beside the design's top mount a bent strut's line passes, in the carrier's rest axes.
    pub fn bend(&self) -> Vec3 {
        Vec3::new(self.by(Change::StrutLine(0)), self.by(Change::StrutLine(1)), 0.0)
    }

    /// The parts as this side has them, laid where the design has them at rest: each joint on its own part, so that members have other lengths here
    /// than they are built with, and the wheel on its carrier.
    pub fn layout(&self, design: &Layout) -> Layout {
        let mut built = design.clone();
        for (id, shift) in &self.shifts {
            if let Some(point) = built.point_mut(*id) {
                *point += shift;
            }
        }
        let wheel = &mut built.wheel;
        wheel.centre += self.out;
        wheel.camber += self.by(Change::CarrierCamber);
        wheel.toe += self.by(Change::CarrierToe);
        wheel.width += self.by(Change::Width);
        wheel.free_radius += self.by(Change::FreeRadius);
        wheel.loaded_radius = self.loaded_radius;
        built
    }

    /// The members with the lengths that they are built with, each with what people call it.
    pub fn lengths(&self, design: &Layout) -> Vec<(Member, f64)> {
        let rods = |guide: &Guide, members: [Member; 2]| match guide {
            Guide::Arms { front, rear } => vec![(members[0], *front), (members[1], *rear)],
            Guide::Wishbone { front, rear, outer } => [*front, *rear]
                .iter()
                .zip(members)
                .map(|(inner, m)| (m, Rod { inner: *inner, outer: *outer }))
                .collect(),
            Guide::Strut { .. } => Vec::new(),
        };
        let mut all = rods(&design.lower, [Member::LowerFront, Member::LowerRear]);
        all.extend(rods(&design.upper, [Member::UpperFront, Member::UpperRear]));
        all.push((Member::TrackRod, design.track_rod));
        all.into_iter().map(|(member, rod)| (member, (rod.outer - rod.inner).norm() + self.length(member))).collect()
    }
}

impl Layout {
    /// True for a joint that goes along when the subframe is shifted.
    pub fn on_subframe(&self, id: PointId) -> bool {
        let anchor = match id {
            PointId::LowerFrontInner => Anchor::LowerFront,
            PointId::LowerRearInner => Anchor::LowerRear,
            PointId::UpperFrontInner => Anchor::UpperFront,
            PointId::UpperRearInner => Anchor::UpperRear,
            PointId::StrutTop => Anchor::StrutTop,
            PointId::TrackRodInner if self.rack.is_some() => Anchor::Rack,
            PointId::TrackRodInner => Anchor::TrackRod,
            _ => return false,
        };
        self.would_carry(anchor)
    }
}
