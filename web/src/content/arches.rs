//! Prepared pairs of axles for wheel space, one laid over the other. What the notes say of litres and gaps is proven by a test.

use super::demos;
use crate::document::Document;
use kernel::{Layout, Member, Obstacle, Rod, Solid, Spring, SpringOn, Vec3};

/// A pair.
pub struct Pair {
    /// What its link is called.
    pub name: &'static str,
    /// The axle, and the one laid over it; `None` only if a demo is none.
    pub layouts: fn() -> Option<[Layout; 2]>,
    /// Readings shown as curves.
    pinned: [&'static str; 3],
}

/// All of them.
pub const PAIRS: [Pair; 2] = [
    Pair {
        name: "four arms against a strut, the same wheel and arch",
        layouts: arms_and_strut,
        pinned: ["kingpin_offset_wheel_centre_mm", "camber_deg", "wheel_gap_mm"],
    },
    Pair {
        name: "rack above the gearbox against rack low, behind the wheel centre",
        layouts: high_and_low,
        pinned: ["bump_steer_deg_per_mm", "toe_deg", "least_gap_mm"],
    },
];

impl Pair {
    /// The document of its link.
    pub fn document(&self) -> Option<Document> {
        let [layout, other] = (self.layouts)()?;
        Some(Document { pinned: self.pinned.to_vec(), compared: Some(other), ..Document::of(layout) })
    }
}

fn arms_and_strut() -> Option<[Layout; 2]> {
    let mut arms = demos::layout(4)?;
    arms.note = "The same wheel over the same travel and rack: four arms take 121.2 litres of the arch, the strut laid over them 123.5. The strut’s tyre comes 10 mm further inboard.".into();
    Some([arms, demos::layout(0)?])
}

/// Four arms with the spring above them and the lower rear arm bent round the wheel, so that nothing meets but what the pair is about.
fn high_and_low() -> Option<[Layout; 2]> {
    let mut low = demos::layout(4)?;
    low.spring = Spring {
        on: SpringOn::UpperFront,
        top: Some(Vec3::new(30.0, 510.0, 880.0)),
        foot: Some(Vec3::new(48.25, 550.0, 640.0)),
        rate: 120.0,
        rocker: None,
    };
    let mut solid = Solid::default();
    solid.via.insert(Member::LowerRear, vec![Vec3::new(-150.0, 470.0, 203.0), Vec3::new(-60.0, 570.0, 190.0)]);
    low.solid = Some(solid);
    let [from, to] = [Vec3::new(-260.0, -340.0, 150.0), Vec3::new(-60.0, 340.0, 330.0)];
    low.boxes = vec![Obstacle { name: "gearbox".into(), from, to, mirrored: None }];
    let inner = Vec3::new(-135.0, 389.0, 360.0);
    let track_rod = Rod { inner, outer: Vec3::new(-130.0, 680.0, 366.4) };
    let mut high = Layout { track_rod, ..low.clone() };
    low.name = "Harbour shuttle, rack low".into();
    low.note = "Low on the subframe the track rod runs into the gearbox at full lock.".into();
    high.name = "Harbour shuttle, rack above the gearbox".into();
    high.note = "The gearbox stands behind the wheel centre, and the rack above it: the track rod clears it by 16 mm over all travel and steering. Low on the subframe, laid over, it runs into it at full lock.".into();
    Some([high, low])
}
