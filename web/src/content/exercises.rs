//! Fourteen exercises, for a vocational class and a first year, each with the way to its solution: a test proves that the start is not right
//! and the solution is, and reads every key off the solved axle. Long because they are fourteen.

use crate::content::{demos, racks};
use crate::document::Document;
use crate::document::lesson::{Aim, Answer, Freed, Lesson, Number, Prediction, mark};
use crate::document::place::Place;
use kernel::{Change, Layout, Member, PointId, Sides, Unit, Vec3};

/// An exercise: its name, what a student gets, and what solves it.
pub struct Exercise {
    /// Its name.
    pub name: &'static str,
    /// What a student opens.
    pub document: Document,
    /// Points to put, and the answer to give, for it to be solved.
    pub solution: (Vec<(PointId, Vec3)>, Answer),
}

/// A demo with some points elsewhere.
fn moved(demo: usize, moves: &[(PointId, Vec3)]) -> Option<Layout> {
    let mut layout = demos::layout(demo)?;
    for (id, by) in moves {
        *layout.point_mut(*id)? += by;
    }
    Some(layout)
}

/// A coordinate that may go so far either way from where it is.
fn free(layout: &Layout, point: PointId, axis: usize, reach: f64) -> Option<Freed> {
    let at = layout.point(point)?[axis];
    Some(Freed { point, axis, range: [at - reach, at + reach] })
}

fn document(layout: Layout, pinned: &[&'static str], lesson: Lesson) -> Document {
    let lesson = Lesson { begin: mark(&layout), ..lesson };
    Document { pinned: pinned.to_vec(), lesson: Some(lesson), ..Document::of(layout) }
}

/// A reading to be reached at rest.
fn aim(column: &'static str, value: f64, tolerance: f64) -> Aim {
    Aim { column, value, tolerance, place: Place::default() }
}

fn number(value: f64, tolerance: f64, unit: Unit) -> Option<Number> {
    Some(Number { value, tolerance, unit })
}

/// What is typed, and what is said of it.
fn answer(guess: &str, words: &str) -> Answer {
    Answer { guess: guess.into(), words: words.into(), ..Answer::default() }
}

const HUB: &str = "kingpin_offset_wheel_centre_mm";

/// All of them.
pub fn all() -> Vec<Exercise> {
    [
        predict(),
        read_the_curve(),
        two_joints(),
        caster(),
        compare(),
        faulty_arm(),
        repair(),
        measure(),
        split(),
        fifth_arm_height(),
        compliance(),
        argue(),
        align(),
        brake(),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn predict() -> Option<Exercise> {
    let layout = demos::layout(0)?;
    let top = layout.point(PointId::StrutTop)?;
    let target = top - Vec3::y() * 20.0;
    let lesson = Lesson {
        task: "The strut’s top mount will be moved 20 mm inward (y smaller by 20). Before you move it: by how many mm does the kingpin offset at the wheel centre change? Give the number with its sign and press Check. Then move the mount, and say in a sentence why.".into(),
        hint: "The axis runs from the top mount to the ball joint. From the ball joint up to the mount, the wheel centre is about a sixth of the way.".into(),
        hidden: vec![HUB],
        free: vec![free(&layout, PointId::StrutTop, 1, 40.0)?],
        aims: vec![aim(HUB, 69.4, 0.6)],
        predict: Prediction::of(HUB, &Document::of(layout.clone())),
        words: true,
        ..Lesson::default()
    };
    Some(Exercise {
        name: "Predict, move, explain: the top mount inward",
        document: document(layout, &[HUB, "kingpin_inclination_deg"], lesson),
        solution: (
            vec![(PointId::StrutTop, target)],
            answer("3.4 mm", "The axis turns about the ball joint, and the wheel centre is a sixth of the way up."),
        ),
    })
}

fn read_the_curve() -> Option<Exercise> {
    let lesson = Lesson {
        task: "Read off the curve: at which travel is this wheel’s camber −1.0°? An answer within 2 mm counts.".into(),
        hint: "Drag in the camber curve until the value above it says −1.00°, and read the travel.".into(),
        number: number(28.0, 2.0, Unit::Millimetre),
        ..Lesson::default()
    };
    Some(Exercise {
        name: "Read off the curve: camber",
        document: document(demos::layout(4)?, &["camber_deg", "toe_deg"], lesson),
        solution: (Vec::new(), answer("28 mm", "")),
    })
}

fn two_joints() -> Option<Exercise> {
    let layout = demos::layout(1)?;
    let [lower, upper] = [layout.point(PointId::LowerOuter)?, layout.point(PointId::UpperOuter)?];
    let lesson = Lesson {
        task: "Two wishbones. Moving only the two ball joints, and only sideways (y), get a scrub radius of 0 ± 1 mm and a kingpin inclination of 10 ± 0.2°.".into(),
        hint: "Inclination depends on the difference in y between the two joints; scrub radius on moving both together.".into(),
        free: vec![free(&layout, PointId::LowerOuter, 1, 30.0)?, free(&layout, PointId::UpperOuter, 1, 40.0)?],
        aims: vec![aim("scrub_radius_mm", 0.0, 1.0), aim("kingpin_inclination_deg", 10.0, 0.2)],
        ..Lesson::default()
    };
    // The line through (y, z) of both joints has tan 10° and meets the road at the contact point.
    let slope = 10.0_f64.to_radians().tan();
    let contact = 765.0 + 305.0 * 0.5_f64.to_radians().sin();
    let at = |joint: Vec3| Vec3::new(joint.x, contact - slope * joint.z, joint.z);
    Some(Exercise {
        name: "Two targets, two joints",
        document: document(layout, &["scrub_radius_mm", "kingpin_inclination_deg", HUB], lesson),
        solution: (vec![(PointId::LowerOuter, at(lower)), (PointId::UpperOuter, at(upper))], Answer::default()),
    })
}

fn caster() -> Option<Exercise> {
    let layout = demos::layout(1)?;
    let [lower, upper] = [layout.point(PointId::LowerOuter)?, layout.point(PointId::UpperOuter)?];
    let lesson = Lesson {
        task: "Bring the steering axis through the wheel centre as seen from the side (caster offset at the wheel centre 0 ± 1 mm), and make the caster 7 ± 0.1°. Move the two ball joints forward and back only.".into(),
        hint: "One joint back, the other forward, each in proportion to its height above or below the wheel centre.".into(),
        free: vec![free(&layout, PointId::LowerOuter, 0, 40.0)?, free(&layout, PointId::UpperOuter, 0, 40.0)?],
        aims: vec![aim("caster_deg", 7.0, 0.1), aim("caster_offset_wheel_centre_mm", 0.0, 1.0)],
        ..Lesson::default()
    };
    let slope = 7.0_f64.to_radians().tan();
    let at = |joint: Vec3| Vec3::new(-slope * (joint.z - 305.0), joint.y, joint.z);
    Some(Exercise {
        name: "Caster about the wheel centre",
        document: document(layout, &["caster_deg", "caster_offset_wheel_centre_mm", "side_lever_arm_mm"], lesson),
        solution: (vec![(PointId::LowerOuter, at(lower)), (PointId::UpperOuter, at(upper))], Answer::default()),
    })
}

fn compare() -> Option<Exercise> {
    let lesson = Lesson {
        task: "A strut axle is drawn over a four-arm axle with the same wheel. A rearward force of 1 kN at the wheel centre (a bump, a puddle) turns each wheel about its steering axis. By how many N·m is the moment larger on the strut axle? An answer within 1 N·m counts.".into(),
        hint: "Moment is force times lever arm. Take the lever arm of a force at the wheel centre, not the offset: the axis leans.".into(),
        number: number(54.4, 1.0, Unit::NewtonMetre),
        ..Lesson::default()
    };
    let mut document = document(demos::layout(4)?, &["drive_lever_arm_mm", HUB], lesson);
    document.compared = demos::layout(0);
    Some(Exercise { name: "Compare two axles", document, solution: (Vec::new(), answer("54.4 N·m", "")) })
}

fn faulty_arm() -> Option<Exercise> {
    let layout = moved(4, &[(PointId::UpperRearInner, Vec3::new(0.0, 6.0, 0.0))])?;
    let sound = demos::layout(4)?;
    let reach = |point: PointId| free(&layout, point, 1, 10.0);
    let lesson = Lesson {
        task: "One arm was made wrongly: its inner joint is 6 mm out of place sideways, and the alignment was then reset. The correct axle is drawn over it. Use the readings to find the arm, and correct its joint so that caster, kingpin inclination and kingpin offset at the wheel centre match the other axle. Camber at rest tells you nothing, because it was reset; compare the curves as well.".into(),
        hint: "Move one joint at a time and watch all three readings: the right joint brings all of them to the other axle’s values together.".into(),
        free: vec![reach(PointId::UpperRearInner)?, reach(PointId::LowerFrontInner)?, reach(PointId::LowerRearInner)?, reach(PointId::UpperFrontInner)?],
        aims: vec![aim(HUB, 9.86, 0.05), aim("caster_deg", 4.21, 0.02), aim("kingpin_inclination_deg", 3.13, 0.02)],
        ..Lesson::default()
    };
    let put = sound.point(PointId::UpperRearInner)?;
    let mut document = document(layout, &["caster_deg", "kingpin_inclination_deg", HUB], lesson);
    document.compared = Some(sound);
    Some(Exercise {
        name: "Find the faulty arm",
        document,
        solution: (vec![(PointId::UpperRearInner, put)], Answer::default()),
    })
}

fn repair() -> Option<Exercise> {
    let layout = demos::layout(0)?;
    let at =
        |travel: f64, value: f64| Aim { place: Place { travel, ..Place::default() }, ..aim("toe_deg", value, 0.02) };
    let lesson = Lesson {
        task: "After a track rod was replaced and the toe set again, a car steers by itself on bumps. The workshop measured the toe of its left wheel:\nat travel +40 mm: 0.32°\nat travel 0: 0.10°\nat travel −40 mm: −0.12°\nThe axle here is as it should be. Move the track rod’s outer joint up or down until the toe is as measured, within 0.02°. By how many mm is the joint of the car too low? An answer within 0.5 mm counts.".into(),
        hint: "Look at the toe curve, not at toe at rest: a joint at the wrong height tilts the whole curve.".into(),
        free: vec![free(&layout, PointId::TrackRodOuter, 2, 15.0)?],
        aims: vec![at(40.0, 0.32), at(-40.0, -0.12)],
        number: number(5.0, 0.5, Unit::Millimetre),
        ..Lesson::default()
    };
    let put = layout.point(PointId::TrackRodOuter)? - Vec3::z() * 5.0;
    Some(Exercise {
        name: "Repair: read a measured sheet",
        document: document(layout, &["toe_deg", "bump_steer_deg_per_mm"], lesson),
        solution: (vec![(PointId::TrackRodOuter, put)], answer("5 mm", "")),
    })
}

fn measure() -> Option<Exercise> {
    let lesson = Lesson {
        task: "You measured every joint with tape and plumb bob, good to ±2 mm. Move the track rod’s outer joint 2 mm up and 2 mm down: how much does bump steer differ between the two? Give the difference in ° per 10 mm as a positive number, with two decimals. Would you trust the bump steer of your own axle? Say in a sentence why.".into(),
        hint: "Read the bump steer 2 mm up and 2 mm down, and take the difference.".into(),
        number: number(0.004, 0.001_2, Unit::DegreePerMillimetre),
        words: true,
        ..Lesson::default()
    };
    Some(Exercise {
        name: "Measure and trust",
        document: document(demos::layout(0)?, &["bump_steer_deg_per_mm", HUB], lesson),
        solution: (
            Vec::new(),
            answer("0.04 °/10 mm", "No: the error of measuring is as large as what I want to know."),
        ),
    })
}

fn split() -> Option<Exercise> {
    let layout = moved(
        4,
        &[
            (PointId::LowerFrontOuter, Vec3::new(0.0, -14.0, 0.0)),
            (PointId::LowerRearOuter, Vec3::new(0.0, -14.0, 0.0)),
        ],
    )?;
    let sound = demos::layout(4)?;
    let place = |id| sound.point(id);
    let lesson = Lesson {
        task: "The lower wishbone is split into two arms. Move the lower virtual joint (where the lines of the two arms cross) outward until the axis meets the road 4 ± 1 mm outside the contact point: scrub radius −4 ± 1 mm. Move only the lower arms’ outer joints, and only sideways.".into(),
        hint: "Both outer joints moved outward by the same amount take the virtual joint with them.".into(),
        free: vec![free(&layout, PointId::LowerFrontOuter, 1, 30.0)?, free(&layout, PointId::LowerRearOuter, 1, 30.0)?],
        aims: vec![aim("scrub_radius_mm", -4.0, 1.0)],
        ..Lesson::default()
    };
    let put = vec![
        (PointId::LowerFrontOuter, place(PointId::LowerFrontOuter)?),
        (PointId::LowerRearOuter, place(PointId::LowerRearOuter)?),
    ];
    Some(Exercise {
        name: "Split the wishbone: move the virtual joint outward",
        document: document(layout, &["scrub_radius_mm", HUB, "brake_lever_arm_mm"], lesson),
        solution: (put, Answer::default()),
    })
}

fn fifth_arm_height() -> Option<Exercise> {
    let layout = moved(4, &[(PointId::TrackRodInner, Vec3::new(0.0, 0.0, 12.0))])?;
    let put = demos::layout(4)?.point(PointId::TrackRodInner)?;
    let lesson = Lesson {
        task: "The track rod is the fifth arm. Its inner joint is at the wrong height, and toe changes with every bump. Changing only its height, get bump steer at rest to 0 ± 0.01° per 10 mm.".into(),
        hint: "A height error gives the toe curve a slope.".into(),
        free: vec![free(&layout, PointId::TrackRodInner, 2, 20.0)?],
        aims: vec![aim("bump_steer_deg_per_mm", 0.0, 0.001)],
        ..Lesson::default()
    };
    Some(Exercise {
        name: "The fifth arm: height",
        document: document(layout, &["toe_deg", "bump_steer_deg_per_mm"], lesson),
        solution: (vec![(PointId::TrackRodInner, put)], Answer::default()),
    })
}

fn compliance() -> Option<Exercise> {
    let [own, other] =
        [0, 1].map(|at| racks::PREPARED[at].layout().map(|layout| Layout { note: String::new(), ..layout }));
    let lesson = Lesson {
        task: "Rubber gives way. Both axles have the same bushes, and both racks lie ahead of the wheel centre; here the rack is bolted to the body, on the axle drawn over it to the subframe. In a bend each front wheel carries a side force of 2 kN, and the steering wheel is held still. By how many degrees does this axle steer by itself more than the other? Give a positive number; an answer within 0.03° counts. Which of the two would a driver call vague, and why? Say it in a sentence.".into(),
        hint: "Pinned is the steer of both wheels for each kN of side force. Take it of either axle, times two.".into(),
        number: number(0.24, 0.03, Unit::Degree),
        words: true,
        ..Lesson::default()
    };
    let mut document = document(own?, &[racks::STEER, "toe_side_force_deg_per_kn"], lesson);
    document.compared = other;
    Some(Exercise {
        name: "What gives way: rack on body or subframe",
        document,
        solution: (
            Vec::new(),
            answer("0.24°", "The one with the rack on the body: it steers out of the bend by itself."),
        ),
    })
}

fn argue() -> Option<Exercise> {
    let lesson = Lesson {
        task: "Somebody writes: four arms are better than a strut. Make the case for or against with two numbers from this page and one thing the page does not include. Three to six sentences.".into(),
        hint: "What is gained at the wheel centre, and what does it cost in joints, room and friction?".into(),
        words: true,
        ..Lesson::default()
    };
    let mut document = document(demos::layout(4)?, &[HUB, "drive_lever_arm_mm", "camber_deg"], lesson);
    document.compared = demos::layout(0);
    Some(Exercise {
        name: "Make the case",
        document,
        solution: (Vec::new(), answer("", "66 against 10 mm, but six more joints.")),
    })
}

/// What is off the track rod’s length, mm, for the toe that the printout of the exercise says.
const SHORT: f64 = -0.69;

fn align() -> Option<Exercise> {
    let mut layout = demos::layout(0)?;
    layout.changes.set(Sides::Both, Change::Length(Member::TrackRod), SHORT);
    let lesson = Lesson {
        task: "Wheel alignment. The printout says: toe of the left wheel −0°12′ (−0.20°, toe-out). It should be +0°06′ (0.10°). The track rod’s thread has a pitch of 1.5 mm. By how many turns is the rod to be made longer? Write a minus if it is to be made shorter. An answer within 0.05 of a turn counts.".into(),
        hint: "Under Influence, the row of the track rod’s length says by how many degrees the toe changes for each mm. Divide the toe that is missing by it, and the mm by the pitch.".into(),
        number: number(0.46, 0.05, Unit::One),
        ..Lesson::default()
    };
    Some(Exercise {
        name: "Workshop: set the toe",
        document: document(layout, &["toe_deg", "camber_deg", "caster_deg"], lesson),
        solution: (Vec::new(), answer("0.46", "")),
    })
}

fn brake() -> Option<Exercise> {
    let lesson = Lesson {
        task: "The right wheels stand on ice, so only the left front wheel brakes: 3000 N rearward, at the road. With what moment, in N·m, does this force turn the wheel about its steering axis? Give a positive number; an answer within 1 N·m counts. Does it turn the front of the wheel inward or outward, and does that help the driver to keep the car straight? Say it in a sentence. The axle drawn over it has its scrub radius on the other side: what would the same force do there?".into(),
        hint: "Moment is force times lever arm, and the lever arm of a force at the road is the brake lever arm. A negative scrub radius means that the axis meets the road outside the contact point.".into(),
        number: number(23.1, 1.0, Unit::NewtonMetre),
        words: true,
        ..Lesson::default()
    };
    let mut document = document(demos::layout(0)?, &["brake_lever_arm_mm", "scrub_radius_mm"], lesson);
    document.compared = demos::layout(1);
    Some(Exercise {
        name: "Braking on one side",
        document,
        solution: (
            Vec::new(),
            answer(
                "23.1 N·m",
                "Inward, away from the braked side, which helps; with the other axle outward, which pulls further to the left.",
            ),
        ),
    })
}
