//! What an absent parameter of version 3 means: frozen for ever. Whatever the page takes for usual later, a link of version 3 stays what it was.
//!
//! A link of a demo has only what differs from it, whichever of its versions the link names; what is in no demo stands in these tables.

use kernel::{Damper, Drive, RollFrom, Vehicle};

/// Of a document.
pub const DOCUMENT: [(&str, &str); 15] = [
    ("hint", ""),
    ("hide", ""),
    ("free", ""),
    ("aims", ""),
    ("locks", ""),
    ("errors", ""),
    ("pins", "camber.toe.caster.kingpin_offset_wheel_centre.scrub_radius.brake_lever_arm"),
    ("over", "travel"),
    ("units", "mm.deg.wheel"),
    ("side", "left"),
    ("hands", "design"),
    ("axle", "one_0"),
    ("load", "none_steel_0_0_4000_0_0_0_30_3_250_20"),
    ("travel", "0"),
    ("rack", "0"),
];

/// Of a shot.
pub const SHOT: [(&str, &str); 4] = [("pins", ""), ("at", ""), ("travel", "0"), ("rack", "0")];

/// Of a layout, where its demo, if it is of one, says nothing else.
pub const LAYOUT: [(&str, &str); 1] = [("note", "")];

/// `car`: the vehicle of a layout that gives none, and the later numbers of one that gives only the first twelve.
pub const CAR: Vehicle = Vehicle {
    wheelbase: 2650.0,
    mass: 1500.0,
    front_share: 0.6,
    cg_height: 550.0,
    brake_share: 0.77,
    unsprung_mass: 40.0,
    rear_roll_centre: 120.0,
    roll_stiffness: 1000.0,
    roll_stiffness_share: 0.6,
    roll_stiffness_from: RollFrom::Numbers,
    pneumatic_trail: 0.0,
    width: 1800.0,
    front_overhang: 850.0,
    drive: Drive::Front,
    steering_efficiency: 0.85,
};

/// `damper`: that of a layout that gives none.
pub const DAMPER: Damper = Damper { guide: 200.0, piston: 180.0, rod: 22.0, friction: 0.05 };

/// A part that has to be said, because nothing said would mean another.
pub fn unless<T: PartialEq>(meant: T, unsaid: T) -> Option<T> {
    (meant != unsaid).then_some(meant)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_usual_once_is_said_when_it_is_not_so_any_more() {
        let heavier = Vehicle { mass: 1700.0, ..CAR };
        assert_eq!((unless(CAR, heavier), unless(CAR, CAR)), (Some(CAR), None));
    }
}
