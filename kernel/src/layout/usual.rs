//! Default positions of the parts that a layout lacks: to be dragged from there, not a design. The amounts are invented.

use super::{AntiRollBar, Guide, HalfShaft, Layout, Mount, PointId, Rack, Rocker, Spring, SpringOn};
use crate::frame::Vec3;

/// The drop link stands here along the lower member, from body to ball joint.
const ALONG: f64 = 0.7;

impl HalfShaft {
    /// From a final drive near the middle to the hub.
    pub fn usual(layout: &Layout) -> HalfShaft {
        let hub = layout.wheel.centre;
        HalfShaft {
            inner: hub + Vec3::new(-15.0, 250.0 - hub.y, 15.0),
            outer: hub - Vec3::y() * 65.0,
            right_inner_y: None,
        }
    }
}

impl Rack {
    /// The stroke per turn of a rack that does not give its own, mm.
    pub const PER_TURN: f64 = 52.0;

    /// On the subframe, with the stroke of a small car's.
    pub fn usual() -> Rack {
        Rack { travel: 75.0, per_turn: Rack::PER_TURN, mount: Mount::Subframe }
    }
}

impl AntiRollBar {
    /// Behind the axle, its drop link upright on the lower member.
    pub fn usual(layout: &Layout) -> AntiRollBar {
        let (on, inner, outer) = match layout.lower {
            Guide::Wishbone { front, rear, outer } => (SpringOn::Lower, (front + rear) / 2.0, outer),
            Guide::Arms { front, .. } => (SpringOn::LowerFront, front.inner, front.outer),
            Guide::Strut { top, foot } => (SpringOn::Carrier, top, foot),
        };
        let link = inner + (outer - inner) * ALONG;
        let lever = link + Vec3::z() * 110.0;
        let pivot = lever - Vec3::new(200.0, 80.0, 0.0);
        AntiRollBar { pivot, lever, link, on, stiffness: None, diameter: AntiRollBar::DIAMETER }
    }
}

impl Spring {
    /// The same spring lying across the car, moved by a push-rod and a rocker above its foot; `None` for one along a strut.
    pub fn rocked(&self) -> Option<Spring> {
        let pivot = self.foot? + Vec3::new(0.0, -70.0, 330.0);
        let spring = pivot + Vec3::z() * 70.0;
        let rocker = Rocker { pivot, axis: Vec3::x(), rod: pivot + Vec3::y() * 60.0, spring };
        let top = Some(spring - Vec3::y() * 260.0);
        (self.on != SpringOn::Strut).then(|| Spring { top, rocker: Some(rocker), ..self.clone() })
    }

    /// The same spring standing on its foot, its upper end where the rocker turned.
    pub fn unrocked(&self) -> Spring {
        Spring { top: self.rocker.map(|rocker| rocker.pivot).or(self.top), rocker: None, ..self.clone() }
    }

    /// The same riding on another part, its ends where they were: without a line of its own it had the strut's.
    pub fn riding_on(&self, on: SpringOn, layout: &Layout) -> Spring {
        let own = self.on_own_line(layout);
        let rocker = self.rocker.filter(|_| on != SpringOn::Strut);
        Spring { on, rocker, ..if on == self.on { self.clone() } else { own } }
    }

    /// The same with a line of its own, which first is that of the strut.
    pub fn on_own_line(&self, layout: &Layout) -> Spring {
        let ends = [self.top.or(layout.point(PointId::StrutTop)), self.foot.or(layout.point(PointId::StrutFoot))];
        Spring { top: ends[0], foot: ends[1], ..self.clone() }
    }

    /// The same along the strut.
    pub fn along_strut(&self) -> Spring {
        Spring { on: SpringOn::Strut, top: None, foot: None, rocker: None, ..self.clone() }
    }
}
