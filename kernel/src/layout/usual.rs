//! Default positions of the parts that a layout lacks: to be dragged from there, not a design. The amounts are invented.

use super::{AntiRollBar, Guide, HalfShaft, Layout, Rocker, Spring, SpringOn};
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
}
