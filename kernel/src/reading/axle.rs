//! The readings of the whole axle, in one table like those of a wheel. Long because it is one table.

use super::{Group, Reading, Unit, Whole};

const PRACTICE: &str = "common practice";
const ISO: &str = "ISO 8855:2011 (wording not checked)";

/// Shorthand for the table below.
const fn entry(
    column: &'static str,
    name: &'static str,
    unit: Unit,
    [positive, meaning, also, formula, source]: [&'static str; 5],
    value: fn(&Whole) -> Option<f64>,
) -> Reading<Whole> {
    Reading { column, name, group: Group::Axle, unit, positive, meaning, also, formula, source, value }
}

/// Every reading of the whole axle, in the order of the page.
pub static AXLE_READINGS: [Reading<Whole>; 29] = [
    entry(
        "roll_deg",
        "Roll",
        Unit::Degree,
        [
            "the body leans to the right",
            "Angle of the body relative to the road.",
            "body roll; in German Wankwinkel",
            "N = (0, sin φ, cos φ)",
            ISO,
        ],
        |w| Some(w.axle.roll),
    ),
    entry(
        "travel_left_mm",
        "Travel, left",
        Unit::Millimetre,
        [
            "bump",
            "Rise of the left wheel centre relative to the body.",
            "",
            "solved so that both wheels stay on the road",
            PRACTICE,
        ],
        |w| Some(w.axle.sides[0].state.travel),
    ),
    entry(
        "travel_right_mm",
        "Travel, right",
        Unit::Millimetre,
        [
            "bump",
            "Rise of the right wheel centre relative to the body.",
            "",
            "solved so that both wheels stay on the road",
            PRACTICE,
        ],
        |w| Some(w.axle.sides[1].state.travel),
    ),
    entry(
        "camber_road_left_deg",
        "Camber to road, left",
        Unit::Degree,
        [
            "the wheel’s top leans out",
            "Lean of the left wheel relative to the road, body roll included.",
            "in German Sturz zur Fahrbahn",
            "−asin(n·N)",
            PRACTICE,
        ],
        |w| Some(w.axle.sides[0].camber_to_road),
    ),
    entry(
        "camber_road_right_deg",
        "Camber to road, right",
        Unit::Degree,
        [
            "the wheel’s top leans out",
            "The same for the right wheel.",
            "in German Sturz zur Fahrbahn",
            "−asin(n·N)",
            PRACTICE,
        ],
        |w| Some(w.axle.sides[1].camber_to_road),
    ),
    entry(
        "steer_left_deg",
        "Steer angle, left",
        Unit::Degree,
        ["to the left", "Steer angle of the left wheel.", "in German Lenkwinkel", "atan2(−n_x, n_y)", ISO],
        |w| Some(w.axle.sides[0].steer),
    ),
    entry(
        "steer_right_deg",
        "Steer angle, right",
        Unit::Degree,
        [
            "to the left",
            "Steer angle of the right wheel.",
            "in German Lenkwinkel",
            "of the mirrored wheel, with opposite sign",
            ISO,
        ],
        |w| Some(w.axle.sides[1].steer),
    ),
    entry(
        "total_toe_deg",
        "Total toe",
        Unit::Degree,
        [
            "toe-in",
            "Sum of both wheels’ toe angles.",
            "in German Gesamtspur",
            "steer right − steer left",
            "ISO 8855:2011, 7.1.6 (published extract)",
        ],
        |w| Some(w.axle.total_toe()),
    ),
    entry(
        "axle_steer_deg",
        "Axle steer",
        Unit::Degree,
        [
            "to the left",
            "Mean steer angle of both wheels; in roll, the roll steer.",
            "roll steer; in German Rolllenken, Wanklenken",
            "mean of both wheels",
            PRACTICE,
        ],
        |w| Some(w.axle.axle_steer()),
    ),
    entry(
        "track_mm",
        "Track",
        Unit::Millimetre,
        [
            "always",
            "Distance between the two contact points along the road.",
            "track width; in German Spurweite",
            "(C_left − C_right) along the road",
            ISO,
        ],
        |w| Some(w.axle.track()),
    ),
    entry(
        "axle_roll_centre_height_mm",
        "Roll centre height",
        Unit::Millimetre,
        [
            "above the road",
            "Height above the road of the point where the normals to both contact points’ paths meet; exact in roll.",
            "in German Rollzentrum, Wankpol",
            "intersection of the two normals",
            PRACTICE,
        ],
        |w| w.axle.roll_centre().map(|centre| centre.height),
    ),
    entry(
        "axle_roll_centre_sideways_mm",
        "Roll centre, lateral",
        Unit::Millimetre,
        [
            "to the left of the middle between the contact points",
            "Lateral position of the same point. A dash: too far away to matter.",
            "",
            "intersection of the two normals",
            PRACTICE,
        ],
        |w| w.axle.roll_centre().map(|centre| centre.sideways),
    ),
    entry(
        "front_swing_arm_mm",
        "Front-view swing arm",
        Unit::Millimetre,
        [
            "the centre is inboard",
            "Horizontal distance from the left wheel’s instantaneous centre to its contact point, from ahead. A dash: too far away to matter.",
            "virtual swing axle length; in German Schwenkarmlänge, Querpol",
            "C_y − (W_y − v_z/ω_x)",
            PRACTICE,
        ],
        |w| w.axle.sides[0].state.front_centre().map(|centre| centre.arm),
    ),
    entry(
        "side_swing_arm_mm",
        "Side-view swing arm",
        Unit::Millimetre,
        [
            "the centre is behind",
            "The same, from the side. A dash: too far away to matter.",
            "in German Längspol",
            "C_x − (W_x + v_z/ω_y)",
            PRACTICE,
        ],
        |w| w.axle.sides[0].state.side_centre().map(|centre| centre.arm),
    ),
    entry(
        "ackermann_percent",
        "Ackermann percentage",
        Unit::Percent,
        [
            "the inner wheel turns more than the outer",
            "Difference of the two steer angles as a percentage of the difference needed for rolling without slip, at ride height.",
            "in German Ackermann-Anteil",
            "(i − o)/(i − o_A), cot o_A − cot i = pins/wheelbase",
            "ISO 8855:2011, 7.1.9 for the condition",
        ],
        |w| w.turn()?.ackermann.map(|share| 100.0 * share),
    ),
    entry(
        "kerb_circle_m",
        "Turning circle, kerb to kerb",
        Unit::Metre,
        [
            "always",
            "Diameter of the circle of the outermost tyre’s outer edge at this rack displacement, at ride height.",
            "turning circle between kerbs",
            "centred midway between where both wheel axes cross the rear axle’s line",
            PRACTICE,
        ],
        |w| w.circle(true).map(|mm| mm / 1000.0),
    ),
    entry(
        "wall_circle_m",
        "Turning circle, wall to wall",
        Unit::Metre,
        [
            "always",
            "Diameter of the circle of the body’s foremost outer corner, at ride height.",
            "in German Wendekreis",
            "the same with width and front overhang",
            PRACTICE,
        ],
        |w| w.wall_circle().map(|mm| mm / 1000.0),
    ),
    entry(
        "steering_ratio",
        "Steering ratio",
        Unit::One,
        [
            "always: which way the pinion turns the rack is not modelled",
            "Steering-wheel degrees per degree of mean road-wheel angle, at this position.",
            "in German Lenkübersetzung",
            "(360°/per_turn)/(d steer/d rack)",
            PRACTICE,
        ],
        |w| w.ratio(),
    ),
    entry(
        "lift_left_mm",
        "Steering jacking, left",
        Unit::Millimetre,
        [
            "the car rises there",
            "How far steering lifts the car at the left wheel, with the spring held at its length at ride height.",
            "lift by steering",
            "fall of the contact point",
            PRACTICE,
        ],
        |w| w.lift().map(|lift| lift[0]),
    ),
    entry(
        "righting_moment_nm",
        "Self-centring moment",
        Unit::NewtonMetre,
        [
            "it turns the wheels to the left",
            "Combined moment of both static wheel loads, less the wheels’ own weight, about the steering axes.",
            "righting moment, weight aligning torque; in German Gewichtsrückstellung",
            "F_z·v_C,z − weight·v_W,z, left less right",
            PRACTICE,
        ],
        |w| w.self_centring().map(|moment| moment / 1000.0),
    ),
    entry(
        "wheel_rate_n_per_mm",
        "Wheel rate, left",
        Unit::NewtonPerMillimetre,
        [
            "normally always",
            "Spring stiffness at the wheel, including the changing motion ratio.",
            "in German Radfederrate",
            "k i² + F di/ds",
            "virtual work",
        ],
        |w| w.rates()[0],
    ),
    entry(
        "ride_frequency_hz",
        "Ride frequency",
        Unit::Hertz,
        [
            "always",
            "Undamped frequency of the sprung mass on the mean wheel rate; tyre taken as rigid.",
            "in German Aufbaueigenfrequenz",
            "√(k/m)/2π, k the mean",
            PRACTICE,
        ],
        |w| w.frequency(),
    ),
    entry(
        "roll_stiffness_nm_per_deg",
        "Roll stiffness",
        Unit::NewtonMetrePerDegree,
        [
            "always",
            "Of both springs and the anti-roll bar, mean of both wheels.",
            "in German Wankfederrate",
            "k t²/2 + c (θ′ t)², k and θ′ means",
            PRACTICE,
        ],
        |w| w.roll_stiffness().map(|stiffness| stiffness.springs + stiffness.bar),
    ),
    entry(
        "anti_dive_percent",
        "Anti-dive",
        Unit::Percent,
        [
            "it reduces dive",
            "Share of the braking load transfer carried by the links of both wheels rather than the springs; outboard brakes.",
            "in German Bremsnickausgleich",
            "brake share·tan(angle along the headings)·wheelbase/height",
            PRACTICE,
        ],
        |w| w.anti_dive(),
    ),
    entry(
        "anti_lift_percent",
        "Anti-lift in drive",
        Unit::Percent,
        [
            "it reduces lift",
            "Share of the drive load transfer carried by the links of both wheels rather than the springs; drive through half-shafts.",
            "in German Anfahrnickausgleich",
            "drive share·tan(angle along the headings)·wheelbase/height",
            PRACTICE,
        ],
        |w| w.anti_lift(),
    ),
    entry(
        "toe_out_on_turns_deg",
        "Toe-out on turns, 20°",
        Unit::Degree,
        [
            "the outer wheel turns less",
            "How much less the outer wheel has turned from straight ahead when the inner one has turned by 20°, at ride height.",
            "in German Spurdifferenzwinkel",
            "i − o at i = 20°",
            PRACTICE,
        ],
        |w| w.toe_out(),
    ),
    entry(
        "dive_braking_g",
        "Braking for this dive",
        Unit::Gravity,
        [
            "always; a dash in roll, steered, or where no braking gives this travel",
            "Steady deceleration at which the front axle settles at this travel, held by springs and links; outboard brakes.",
            "brake dive; in German Bremsnicken",
            "(F − F_standing)/F per g, of the spring",
            "statics",
        ],
        |w| w.braking(),
    ),
    entry(
        "anti_dive_inboard_percent",
        "Anti-dive, inboard brakes",
        Unit::Percent,
        [
            "it reduces dive",
            "Anti-dive with inboard brakes, which act through the half-shafts.",
            "in German Bremsnickausgleich, innenliegende Bremse",
            "brake share·tan(angle of the wheel centre along the headings)·wheelbase/height",
            PRACTICE,
        ],
        |w| w.anti_dive_inboard(),
    ),
    entry(
        "wheel_circle_m",
        "Turning circle of the wheel",
        Unit::Metre,
        [
            "always",
            "Diameter of the circle of the outermost tyre’s middle, at ride height.",
            "track circle; in German Spurkreis",
            "as kerb to kerb, to the tyre’s middle",
            PRACTICE,
        ],
        |w| w.circle(false).map(|mm| mm / 1000.0),
    ),
];

impl Reading<Whole> {
    /// The reading of a column name.
    pub fn of_axle(column: &str) -> Option<&'static Reading<Whole>> {
        AXLE_READINGS.iter().find(|reading| reading.column == column || reading.short() == column)
    }
}
