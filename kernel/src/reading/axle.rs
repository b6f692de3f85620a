//! The readings of the whole axle, in one table like those of a wheel. Long because it is one table.

use super::{Group, Reading, Unit};
use crate::both::{AxleState, Place, Turn, at_rest, lift, steering_ratio, toe_out_on_turns};
use crate::layout::Layout;
use crate::linkage::Linkage;
use crate::loads::{Load, SteeringMoment};
use crate::pose::{Position, Unsolved};
use crate::ride::{RollStiffness, Springing, both, frequency, support};
use crate::state::State;

/// A whole axle in one position, with what is read from it.
#[derive(Clone, Debug)]
pub struct Whole {
    /// Both wheels.
    pub axle: AxleState,
    /// How it turns at this rack displacement, where the car stands.
    pub turn: Option<Turn>,
    /// Toe-out on turns with the inner wheel at 20°, degrees.
    pub toe_out: Option<f64>,
    /// Twice the radius of the outermost tyre's edge, of the body's foremost corner, and of the outermost tyre's middle, mm.
    pub circles: [Option<f64>; 3],
    /// Degrees of the steering wheel per degree of the mean road wheel.
    pub ratio: Option<f64>,
    /// What steering lifts left and right, mm, from where the car stands.
    pub lift: Option<[f64; 2]>,
    /// Moment of both standing wheel loads, less the wheels' own weight, about the steering axes that turns the wheels to the left, N·mm.
    pub righting: Option<f64>,
    /// Wheel rate of the left wheel, N/mm.
    pub rate: Option<f64>,
    /// Frequency of the sprung mass on the mean of both wheels' rates, Hz.
    pub frequency: Option<f64>,
    /// Of the axle at these travels, N·m per degree.
    pub roll_stiffness: Option<RollStiffness>,
    /// In percent: against the dive of braking at the wheels, against the lift of driving through half-shafts, against the dive of braking
    /// through half-shafts. Of both wheels together, each with its force along its own heading.
    pub supports: [Option<f64>; 3],
    /// Braking, in g, whose dive brings the axle to this travel; only without roll.
    pub braking: Option<f64>,
}

impl Whole {
    /// The axle rolled by so many degrees, at a mean travel and a rack displacement, mm. `rest` is its left wheel's state at rest.
    pub fn at(
        layout: &Layout,
        linkage: &Linkage,
        rest: &State,
        [roll, travel, rack]: [f64; 3],
        guess: &[Position; 2],
    ) -> Result<Whole, Unsolved> {
        let axle = AxleState::rolled(linkage, roll, travel, rack, guess)?;
        let vehicle = layout.vehicle();
        let stands = rest.travel;
        let turn = Turn::at(linkage, &vehicle, stands, rack).ok().filter(|_| linkage.steered);
        let circles = [
            turn.as_ref().and_then(|turn| turn.kerb_radius(&vehicle, layout.wheel.width)),
            turn.as_ref().and_then(|turn| turn.wall_radius(&vehicle)),
            turn.as_ref().and_then(|turn| turn.kerb_radius(&vehicle, 0.0)),
        ];
        let springing = Springing::of(layout, rest);
        let [left, right] = &axle.sides;
        let sides = [&left.state, &right.state];
        let rates = sides.map(|state| Some(springing?.at_wheel(linkage, state)?.1));
        let standing = Load::braking(&vehicle, 0.0);
        let righting = |state| SteeringMoment::of(&standing, state).map(|moment| moment.total());
        let support = |share, at| axle.carried(at).map(|tangent| support(share, tangent, &vehicle));
        Ok(Whole {
            ratio: layout.rack.as_ref().and_then(|rack| steering_ratio(&axle, rack)),
            lift: lift(linkage, stands, rack).ok().filter(|_| linkage.steered),
            righting: righting(sides[0]).zip(righting(sides[1])).map(|(left, right)| left - right),
            rate: rates[0],
            frequency: both(rates).and_then(|rate| frequency(rate, vehicle.sprung_mass())),
            roll_stiffness: springing
                .and_then(|spring| RollStiffness::at(layout, linkage, &spring, sides, axle.track())),
            // Braking pulls rearward and moves load forward, driving the other way: one tangent serves each.
            supports: [
                support(vehicle.brake_share, Place::Road),
                support(vehicle.drive_share(), Place::Centre),
                support(vehicle.brake_share, Place::Centre),
            ],
            braking: springing.filter(|_| roll == 0.0).and_then(|springing| springing.braking_at(sides[0], &vehicle)),
            toe_out: toe_out_on_turns(linkage, &vehicle, stands, 20.0).ok().filter(|_| linkage.steered),
            circles: circles.map(|radius| radius.map(|radius| 2.0 * radius)),
            turn,
            axle,
        })
    }

    /// The axle at rest.
    pub fn rest(layout: &Layout, linkage: &Linkage, rest: &State, travel: f64) -> Result<Whole, Unsolved> {
        Whole::at(layout, linkage, rest, [0.0, travel, 0.0], &at_rest(linkage))
    }
}

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
        |w| w.turn.as_ref().and_then(|turn| turn.ackermann).map(|share| 100.0 * share),
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
        |w| w.circles[0].map(|mm| mm / 1000.0),
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
        |w| w.circles[1].map(|mm| mm / 1000.0),
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
        |w| w.ratio,
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
        |w| w.lift.map(|lift| lift[0]),
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
        |w| w.righting.map(|moment| moment / 1000.0),
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
        |w| w.rate,
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
        |w| w.frequency,
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
        |w| w.roll_stiffness.map(|stiffness| stiffness.springs + stiffness.bar),
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
        |w| w.supports[0],
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
        |w| w.supports[1],
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
        |w| w.toe_out,
    ),
    entry(
        "dive_braking_g",
        "Braking for this dive",
        Unit::Gravity,
        [
            "always; a dash where no braking gives this travel",
            "Steady deceleration at which the front axle settles at this travel, held by springs and links; outboard brakes.",
            "brake dive; in German Bremsnicken",
            "(F − F_standing)/F per g, of the spring",
            "statics",
        ],
        |w| w.braking,
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
        |w| w.supports[2],
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
        |w| w.circles[2].map(|mm| mm / 1000.0),
    ),
];

impl Reading<Whole> {
    /// The reading of a column name.
    pub fn of_axle(column: &str) -> Option<&'static Reading<Whole>> {
        AXLE_READINGS.iter().find(|reading| reading.column == column || reading.short() == column)
    }
}
