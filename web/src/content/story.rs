//! The story that comes with the page: from the strut to four arms, and what each step is for. Its numbers are solved, not typed. Long because a
//! story is.

use super::demos;
use super::racks::{PREPARED, STEER};
use crate::document::place::Place;
use crate::document::story::{Moves, Seen, Shot, Stress};
use crate::document::{Case, Document};
use crate::study::Solved;
use crate::study::loaded::Loaded;
use crate::study::value::value_at;
use crate::text::number::{Units, fixed};
use kernel::{Layout, LoadCase, Member, PointId, Reading, RodForces, Vec3};

/// A shot that stands, one in which something moves, and one that is a change, s: time to read it twice.
const STANDS: f64 = 8.0;
const SWEEPS: f64 = 10.0;

const HUB: &str = "kingpin_offset_wheel_centre_mm";
const DRIVE: &str = "drive_lever_arm_mm";
const LEAN: &str = "kingpin_inclination_deg";
const GAP: &str = "wheel_gap_mm";
const BUMP_STEER: &str = "bump_steer_deg_per_mm";

/// How far the track rod's inner joint is dragged, mm.
const DRAGGED: f64 = 20.0;

/// The story told first.
pub fn shipped() -> Vec<Shot> {
    [strut(), outward(), wishbones(), price(), split(), in_space(), one_scale(), steered(), bent_rod(), spared_rod()]
        .into_iter()
        .chain([room(), fifth_arm(), rack(0), rack(2), rack(1)])
        .flatten()
        .collect()
}

/// What a reading of a layout is at rest.
fn value(layout: &Layout, column: &str) -> Option<f64> {
    value_at(&Document::of(layout.clone()), Place::default(), Reading::named(column)?)
}

/// The same in words.
fn told(layout: &Layout, column: &str) -> Option<String> {
    Some(Units::default().with_unit(Some(value(layout, column)?), Reading::named(column)?))
}

/// A shot with readings pinned. The caption says what the layout's note would.
fn shot(layout: Layout, pinned: &[&'static str], seen: Seen, caption: String) -> Shot {
    Shot { pinned: pinned.to_vec(), seen, lasts: STANDS, ..Shot::at_rest(layout, caption) }
}

fn strut() -> Option<Shot> {
    let layout = demos::layout(0)?;
    let caption = format!(
        "A strut: the steering axis runs from its top mount through the ball joint and passes {} inboard of the wheel centre. Bumps, drag and drive \
         act at the wheel centre, with that long lever arm.",
        told(&layout, HUB)?
    );
    let shot = shot(layout, &[HUB, DRIVE, LEAN], Seen::Front, caption);
    Some(Shot { moves: Moves::Bump, lasts: SWEEPS, stress: Some(Stress::Axis), ..shot })
}

/// The strut so much further outboard, to a tenth of a millimetre, that its axis passes the wheel centre as near as that of four arms.
pub fn strut_outward() -> Option<Layout> {
    let mut layout = demos::layout(0)?;
    let by = ((value(&layout, HUB)? - value(&demos::layout(4)?, HUB)?) * 10.0).round() / 10.0;
    for id in [PointId::StrutTop, PointId::StrutFoot, PointId::LowerOuter] {
        layout.point_mut(id)?.y += by;
    }
    Some(layout)
}

fn outward() -> Option<Shot> {
    let (layout, before) = (strut_outward()?, demos::layout(0)?);
    let moved = layout.point(PointId::StrutTop)?.y - before.point(PointId::StrutTop)?.y;
    let caption = format!(
        "Why not move it outward? {} mm further out, the strut would stand inside the tyre: the gap of {} between wheel and strut would be gone.",
        fixed(moved, 0),
        told(&before, GAP)?
    );
    let shot = shot(layout, &[HUB, GAP], Seen::Front, caption);
    Some(Shot { moves: Moves::Change, lasts: STANDS, stress: Some(Stress::Room), ..shot })
}

fn wishbones() -> Option<Shot> {
    let (layout, strut) = (demos::layout(1)?, demos::layout(0)?);
    let caption = format!(
        "Two wishbones need no strut beside the tyre. The axis runs through their two ball joints: {} from the wheel centre instead of {}, and it leans {} \
         instead of {}.",
        told(&layout, HUB)?,
        told(&strut, HUB)?,
        told(&layout, LEAN)?,
        told(&strut, LEAN)?
    );
    let shot = shot(layout, &[HUB, DRIVE, LEAN], Seen::Front, caption);
    Some(Shot { stress: Some(Stress::Axis), ..shot })
}

fn price() -> Option<Shot> {
    let layout = demos::layout(1)?;
    let caption = format!(
        "The price: more joints, and a second wishbone that takes width from engine and luggage. And ball joints have to stand inboard of brake and \
         rim, so {} are left.",
        told(&layout, HUB)?
    );
    let shot = shot(layout, &[HUB, DRIVE, LEAN], Seen::Plan, caption);
    Some(Shot { points_at: Some(PointId::UpperOuter), stress: Some(Stress::Member(Member::UpperFront)), ..shot })
}

fn split() -> Option<Shot> {
    let layout = demos::layout(3)?;
    let caption = "Split the lower wishbone into two arms, each with its own ball joint. The lower end of the axis is now where the lines of the two arms \
                   come closest. There is no part at that point."
        .into();
    let shot = shot(layout, &[HUB, DRIVE, LEAN], Seen::Plan, caption);
    Some(Shot { moves: Moves::Change, lasts: SWEEPS, ..shot })
}

fn in_space() -> Option<Shot> {
    let caption = "Split both, and the whole axis is virtual: it joins the two places where the arms’ lines come closest, and runs through no joint at all."
        .into();
    let shot = shot(demos::layout(4)?, &[HUB, DRIVE, LEAN], Seen::Pictorial, caption);
    Some(Shot { stress: Some(Stress::Axis), lasts: SWEEPS, ..shot })
}

fn one_scale() -> Option<Shot> {
    let (layout, strut) = (demos::layout(4)?, demos::layout(0)?);
    let caption = format!(
        "Both at one scale: from the wheel centre to the axis are {} with four arms, and {} with the strut, which is laid over in long dashes with dots.",
        told(&layout, HUB)?,
        told(&strut, HUB)?
    );
    let shot = shot(layout, &[HUB, DRIVE, LEAN], Seen::Front, caption);
    Some(Shot { over: Some(strut), zoom: 2.0, stress: Some(Stress::Reading(HUB)), ..shot })
}

fn steered() -> Option<Shot> {
    let caption =
        "As you steer, the arms’ lines meet elsewhere, and the axis moves: there is no fixed steering axis, only the one at this instant.".into();
    let shot = shot(demos::layout(4)?, &[HUB, "scrub_radius_mm", LEAN], Seen::Front, caption);
    Some(Shot { moves: Moves::Steer, lasts: SWEEPS, stress: Some(Stress::Axis), ..shot })
}

/// The outer wheel in a bend.
fn bend() -> Option<Case> {
    LoadCase::all().iter().position(|case| case.key == "outer").map(Case::Of)
}

/// What a strut's rod bears at the outer wheel in a bend.
pub fn rod_in_a_bend() -> Option<RodForces> {
    let mut document = Document::of(demos::layout(0)?);
    document.loads.case = bend()?;
    Loaded::of(&Solved::new(&document, None).ok()?, &document)?.rod
}

fn bent_rod() -> Option<Shot> {
    let rod = rod_in_a_bend()?;
    let caption = format!(
        "A strut guides the wheel and damps it. At the outer wheel in a bend, a side force of {} N at the top mount bends its rod, and guide and piston \
         rub with {} N of friction.",
        fixed(rod.side, 0),
        fixed(rod.friction, 0)
    );
    let shot = shot(demos::layout(0)?, &[HUB, "camber_deg"], Seen::Front, caption);
    Some(Shot {
        case: bend()?,
        points_at: Some(PointId::StrutTop),
        stress: Some(Stress::Member(Member::Strut)),
        ..shot
    })
}

fn spared_rod() -> Option<Shot> {
    let caption = "With four arms the arms alone guide the wheel. The damper hangs in a joint at either end, so nothing bends its rod: it can be thin, and it \
                   does not bind."
        .into();
    let shot = shot(demos::layout(4)?, &[HUB, "camber_deg"], Seen::Front, caption);
    Some(Shot { case: bend()?, points_at: Some(PointId::SpringTop), stress: Some(Stress::Joint), ..shot })
}

fn room() -> Option<Shot> {
    let [layout, _] = (super::arches::PAIRS[1].layouts)()?;
    let layout = Layout { note: String::new(), ..layout };
    let caption = format!(
        "Nor does anything stand where the strut was. But the wheel needs its room wherever it goes: the nearest part is {} from it here, and so the lower \
         rear arm is bent round it.",
        told(&layout, GAP)?
    );
    let shot = shot(layout, &[GAP, "least_gap_mm"], Seen::Plan, caption);
    Some(Shot { moves: Moves::Steer, lasts: SWEEPS, stress: Some(Stress::Room), ..shot })
}

/// Four arms with the track rod's inner joint dragged.
pub fn dragged() -> Option<Layout> {
    let mut layout = demos::layout(4)?;
    layout.point_mut(PointId::TrackRodInner)?.z += DRAGGED;
    Some(layout)
}

fn fifth_arm() -> Option<Shot> {
    let layout = demos::layout(4)?;
    let caption = format!(
        "The track rod is the fifth arm. Raise its inner joint by {} mm, and the wheel steers as it moves up and down: bump steer goes from {} to {}.",
        fixed(DRAGGED, 0),
        told(&layout, BUMP_STEER)?,
        told(&dragged()?, BUMP_STEER)?
    );
    let shot = shot(layout, &[BUMP_STEER, "toe_deg"], Seen::Front, caption);
    Some(Shot {
        moves: Moves::Drag,
        by: Vec3::new(0.0, 0.0, DRAGGED),
        lasts: SWEEPS,
        points_at: Some(PointId::TrackRodInner),
        stress: Some(Stress::Member(Member::TrackRod)),
        ..shot
    })
}

/// What a prepared rack does, in degrees for each kN of side force.
fn rack(prepared: usize) -> Option<Shot> {
    let steer = |index: usize| value(&PREPARED[index].layout()?, STEER);
    let per_kn = |degrees: f64| format!("{}° per kN", fixed(degrees.abs(), 2));
    let way = |degrees: f64| if degrees > 0.0 { "out of the bend" } else { "into the bend" };
    let (degrees, soft) = (steer(prepared)?, steer(0)?);
    let told = format!("{} {}", per_kn(degrees), way(degrees));
    let caption = match prepared {
        0 => format!(
            "In a bend a soft subframe shifts with its arms, a rack on the body does not: ahead of the wheel centre it steers {told}, hands held still. Felt \
             as vague."
        ),
        2 => format!("The same with the rack behind the wheel centre: {told}. Felt as nervous."),
        _ => format!(
            "So the rack goes onto the subframe, and the subframe is bolted to the body: of {} only {told} is left, and that is of the bushes.",
            per_kn(soft)
        ),
    };
    let layout = Layout { note: String::new(), ..PREPARED[prepared].layout()? };
    let pinned = [STEER, "toe_side_force_deg_per_kn", "camber_side_force_deg_per_kn"];
    let shot = shot(layout, &pinned, Seen::Plan, caption);
    Some(Shot { points_at: Some(PointId::TrackRodInner), case: bend()?, stress: Some(Stress::Reading(STEER)), ..shot })
}
