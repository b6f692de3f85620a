//! One wishbone split into two arms, two arms joined into one wishbone.
//!
//! A wishbone guides the wheel as two rods to one ball joint do, so a split one whose arms both end at the ball joint moves the wheel exactly as
//! before. What rides on it (spring, drop link) then rides on the nearest arm, where it stays at its place at rest. Joined arms get the ball joint
//! in the middle between their outer joints: how far these were apart is lost.

use super::{Adjusted, Anchor, Bush, Change, Changes, Guide, Layout, PointId, Rod, SpringOn};
use crate::frame::Vec3;

/// The lower or the upper guide.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    /// Below.
    Lower,
    /// Above.
    Upper,
}

impl Level {
    /// Lower and upper.
    pub const ALL: [Level; 2] = [Level::Lower, Level::Upper];

    /// Outer joints of the front and the rear arm.
    pub fn outer_joints(self) -> [PointId; 2] {
        match self {
            Level::Lower => [PointId::LowerFrontOuter, PointId::LowerRearOuter],
            Level::Upper => [PointId::UpperFrontOuter, PointId::UpperRearOuter],
        }
    }

    /// Where its front and rear inner joints are held.
    fn anchors(self) -> [Anchor; 2] {
        match self {
            Level::Lower => [Anchor::LowerFront, Anchor::LowerRear],
            Level::Upper => [Anchor::UpperFront, Anchor::UpperRear],
        }
    }

    /// A wishbone's ball joint.
    pub fn ball_joint(self) -> PointId {
        if self == Level::Lower { PointId::LowerOuter } else { PointId::UpperOuter }
    }

    /// What rides on the wishbone, on the front arm, on the rear arm.
    fn ridden(self) -> [SpringOn; 3] {
        match self {
            Level::Lower => [SpringOn::Lower, SpringOn::LowerFront, SpringOn::LowerRear],
            Level::Upper => [SpringOn::Upper, SpringOn::UpperFront, SpringOn::UpperRear],
        }
    }
}

impl Layout {
    /// A guide.
    pub fn guide(&self, level: Level) -> &Guide {
        if level == Level::Lower { &self.lower } else { &self.upper }
    }

    /// The same with its wishbone as two arms that both end where its ball joint was, or with its two arms as one wishbone. A strut stays one.
    pub fn other_kind(&self, level: Level) -> Layout {
        let mut after = self.clone();
        let [bone, on_front, on_rear] = level.ridden();
        let guide = match *self.guide(level) {
            Guide::Wishbone { front, rear, outer } => {
                let arms = [front, rear].map(|inner| Rod { inner, outer });
                let nearest = |at: Vec3| if arms[0].distance(at) <= arms[1].distance(at) { on_front } else { on_rear };
                after.carry(|on, at| if on == bone { nearest(at) } else { on });
                Guide::Arms { front: arms[0], rear: arms[1] }
            }
            Guide::Arms { front, rear } => {
                after.carry(|on, _| if [on_front, on_rear].contains(&on) { bone } else { on });
                Guide::Wishbone { front: front.inner, rear: rear.inner, outer: (front.outer + rear.outer) / 2.0 }
            }
            Guide::Strut { top, foot } => Guide::Strut { top, foot },
        };
        if matches!(guide, Guide::Wishbone { .. }) {
            after.lose_members(level);
        }
        after.changes = self.changes.on_other_kind(level, self.guide(level));
        *(if level == Level::Lower { &mut after.lower } else { &mut after.upper }) = guide;
        after
    }

    /// A guide whose arms are gone has no stiffness along them; its bushes stay.
    fn lose_members(&mut self, level: Level) {
        for anchor in level.anchors() {
            let left = self.stiffness.get(&anchor).map(|bush| Bush { along: None, ..*bush });
            match left.filter(|bush| bush.radial.is_some()) {
                Some(bush) => self.stiffness.insert(anchor, bush),
                None => self.stiffness.remove(&anchor),
            }
        }
    }

    /// What spring and drop link ride on, by where they stand on it.
    fn carry(&mut self, to: impl Fn(SpringOn, Vec3) -> SpringOn) {
        if let Some(foot) = self.spring.foot {
            self.spring.on = to(self.spring.on, foot);
        }
        if let Some(bar) = &mut self.anti_roll_bar {
            bar.on = to(bar.on, bar.link);
        }
    }
}

impl Rod {
    /// How far a place is from it, mm.
    fn distance(&self, at: Vec3) -> f64 {
        let along = self.outer - self.inner;
        let part = ((at - self.inner).dot(&along) / along.norm_squared()).clamp(0.0, 1.0);
        (self.inner + along * part - at).norm()
    }
}

impl Changes {
    /// The changes of a layout whose guide, `before`, becomes the other kind. Lengths stay those of the same legs or arms. A ball joint that sits
    /// elsewhere on the carrier takes both arms' outer joints with it; of two outer joints the middle is the ball joint. An adjuster that moves a
    /// joint which is gone goes with it.
    pub fn on_other_kind(&self, level: Level, before: &Guide) -> Changes {
        let (outer, ball) = (level.outer_joints(), level.ball_joint());
        let gone = |id: PointId| match before {
            Guide::Wishbone { .. } => id == ball,
            Guide::Arms { .. } => outer.contains(&id),
            Guide::Strut { .. } => false,
        };
        let mut after = self.taken_back();
        after.adjusters.retain(|adjuster| match adjuster.set {
            Adjusted::Change(Change::Joint(id, _)) | Adjusted::Along(id, _) => !gone(id),
            Adjusted::Change(_) => true,
        });
        for (of, change, by) in self.iter() {
            match change {
                Change::Joint(id, axis) if gone(id) && id == ball => {
                    outer.iter().for_each(|arm| after.set(of, Change::Joint(*arm, axis), by));
                }
                Change::Joint(id, axis) if gone(id) => {
                    let middle = Change::Joint(ball, axis);
                    after.set(of, middle, after.get(of, middle) + by / 2.0);
                }
                _ => after.set(of, change, by),
            }
        }
        after
    }
}
