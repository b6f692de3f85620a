//! What gives way on a usual car: bushes and subframes to begin with, not a design. The amounts are invented; their size is common practice.

use super::{Anchor, Bush, Few, Guide, Layout, Rod, Subframe, SubframeMount};
use crate::frame::Vec3;

/// Radial, axial, N/mm, and torsional stiffness, N·m/°, of a rubber bush.
type Rubber = [f64; 3];

/// A stiff bush where the arm gives the wheel its camber and toe, and a softer one behind it, which lets the wheel move back over a bump.
const LOWER_FRONT: Rubber = [9_000.0, 900.0, 1.5];
const LOWER_REAR: Rubber = [1_500.0, 500.0, 1.2];
/// Without steering five rods share what it alone takes up.
const UNSTEERED_LOWER_REAR: Rubber = [4_000.0, 500.0, 1.2];
const UPPER: Rubber = [3_000.0, 600.0, 0.8];
const UNSTEERED_TRACK_ROD: Rubber = [6_000.0, 800.0, 0.8];
/// Radial and axial; it turns with the wheel's steering, not with its travel.
const STRUT_TOP: [f64; 2] = [1_500.0, 900.0];
/// Along the member, N/mm.
const TRACK_ROD: f64 = 25_000.0;
const RACK: f64 = 8_000.0;

/// Mounts stand this far before and behind the inner joints of the lower guide, and outside and above them, mm.
const BEYOND: Vec3 = Vec3::new(90.0, 20.0, 50.0);

impl Bush {
    /// The usual one at an anchor; `None` where a layout has none.
    pub fn usual(layout: &Layout, at: Anchor) -> Option<Bush> {
        let steered = layout.rack.is_some();
        let rubber = |[radial, axial, torsion]: Rubber| Bush {
            radial: Some(radial),
            axial: Some(axial),
            axis: across(layout, at),
            torsion: Some(torsion),
            along: None,
        };
        let along = |stiffness| Bush { along: Some(stiffness), ..Bush::default() };
        at.is_in(layout).then(|| match at {
            Anchor::LowerFront => rubber(LOWER_FRONT),
            Anchor::LowerRear if steered => rubber(LOWER_REAR),
            Anchor::LowerRear => rubber(UNSTEERED_LOWER_REAR),
            Anchor::UpperFront | Anchor::UpperRear => rubber(UPPER),
            Anchor::StrutTop => {
                let [radial, axial] = STRUT_TOP;
                Bush { radial: Some(radial), axial: Some(axial), ..Bush::default() }
            }
            Anchor::TrackRod if steered => along(TRACK_ROD),
            Anchor::TrackRod => rubber(UNSTEERED_TRACK_ROD),
            Anchor::Rack => along(RACK),
        })
    }
}

/// The level direction across an arm, in hundredths: an arm's bush lies so. `None` at a wishbone, whose bushes lie along its body axis.
fn across(layout: &Layout, at: Anchor) -> Option<Vec3> {
    let arm: &Rod = match (at, at.guide(layout)) {
        (Anchor::LowerFront | Anchor::UpperFront, Some(Guide::Arms { front, .. })) => front,
        (Anchor::LowerRear | Anchor::UpperRear, Some(Guide::Arms { rear, .. })) => rear,
        (Anchor::TrackRod, _) => &layout.track_rod,
        _ => return None,
    };
    let across = (arm.outer - arm.inner).cross(&Vec3::z()).try_normalize(1e-9)?;
    // The same axis points forward.
    let forward = if across.x < 0.0 { -across } else { across };
    Some(forward.map(|part| (part * 100.0).round() + 0.0))
}

impl Layout {
    /// A usual bush wherever this axle can have one.
    pub fn usual_stiffness(&self) -> Few<Anchor, Bush> {
        Anchor::all(self).into_iter().filter_map(|at| Some((at, Bush::usual(self, at)?))).collect()
    }
}

impl SubframeMount {
    /// Along x, y and z, N/mm, on rubber.
    pub const RUBBER: Vec3 = Vec3::new(3_000.0, 3_600.0, 2_400.0);

    /// The same of a subframe that is bolted to the body.
    pub const BOLTED: Vec3 = Vec3::new(60_000.0, 60_000.0, 60_000.0);
}

impl Subframe {
    /// A subframe round the lower guide's inner joints, all mounts with one stiffness, N/mm, carrying what a subframe does by default.
    pub fn usual(layout: &Layout, stiffness: Vec3) -> Subframe {
        let [a, b] = match layout.lower {
            Guide::Wishbone { front, rear, .. } => [front, rear],
            Guide::Arms { front, rear } => [front.inner, rear.inner],
            Guide::Strut { top, foot } => [top, foot],
        };
        let (front, rear) = if a.x < b.x { (b, a) } else { (a, b) };
        let mount = |joint: Vec3, sign: f64| SubframeMount {
            at: (joint + Vec3::new(sign * BEYOND.x, BEYOND.y, BEYOND.z)).map(f64::round),
            stiffness,
        };
        Subframe { mounts: vec![mount(front, 1.0), mount(rear, -1.0)], carries: None }
    }
}
