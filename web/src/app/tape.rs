//! What there is to say of tape readings, in sentences.

use super::App;
use crate::study::Taped;
use crate::text::number::fixed;
use kernel::Vec3;
use kernel::tape::{Found, Suspect, What};

impl App {
    /// What there is to say of the tape readings that are typed.
    pub fn told_tapes(&self) -> Vec<String> {
        let taped = self.taped();
        let mut says = taped.tapes.wrong.clone();
        match &taped.found {
            Some(found) => {
                says.push(agreement(taped, found));
                says.extend(open(taped, found));
            }
            None if taped.tapes.readings.is_empty() => {}
            None => says.push("These readings lead to no places; look for a slip in them.".into()),
        }
        says
    }
}

/// Whether the readings agree, and which one does not.
fn agreement(taped: &Taped, found: &Found) -> String {
    let suspects: Vec<String> = found.suspects.iter().map(|suspect| told(taped, suspect)).collect();
    match (&suspects[..], found.agree, found.spare) {
        ([one], ..) => format!("{one} than all the others say: measure it again."),
        ([_, ..], ..) => format!("One of these does not fit the others: {}. Measure them again.", suspects.join("; ")),
        ([], false, _) => {
            "The readings contradict each other by more than their ± allows, and no single one explains it.".into()
        }
        ([], true, 0) => "No reading is checked by another: take some more than are needed.".into(),
        ([], true, 1) => "The readings agree within their ±; one is checked by the others.".into(),
        ([], true, spare) => format!("The readings agree within their ±; there are {spare} more than needed."),
    }
}

fn told(taped: &Taped, suspect: &Suspect) -> String {
    let by = format!("{} mm", fixed(suspect.by.abs(), 1));
    let (line, tape) = taped.tapes.readings[suspect.tape];
    match tape.what {
        What::Distance(ends) => {
            let [from, to] = ends.map(|end| taped.tapes.name(end));
            let how = if suspect.by > 0.0 { "longer" } else { "shorter" };
            format!("Line {line}, {from} to {to}, is {by} {how}")
        }
        What::Coordinate(..) => {
            let how = if suspect.by > 0.0 { "greater" } else { "smaller" };
            format!("Line {line}, a known coordinate, is {by} {how}")
        }
    }
}

/// What the readings leave open.
fn open(taped: &Taped, found: &Found) -> Option<String> {
    let spots = taped.tapes.spots.iter().zip(&found.open);
    let open: Vec<String> = spots.filter_map(|(spot, open)| left_open(spot.name(), open)).collect();
    let all = found.errors.iter().flatten().all(Option::is_none);
    match (all, open.is_empty()) {
        (true, _) => {
            Some("Nothing ties these points to the car: give known coordinates of at least three marks.".into())
        }
        (_, true) => None,
        (_, false) => Some(format!("Not determined: {}.", open.join("; "))),
    }
}

/// A direction is level or upright if it is so within some 10°.
const ALONG: f64 = 0.985;

fn left_open(name: &str, open: &[Vec3]) -> Option<String> {
    Some(match open {
        [] => return None,
        [way] if way.z.abs() > ALONG => format!("the height of {name}"),
        [way] if way.x.abs() > ALONG => format!("how far forward {name} is"),
        [way] if way.y.abs() > ALONG => format!("how far out {name} is"),
        [way] => {
            let [x, y, z] = [way.x, way.y, way.z].map(|part| fixed(part, 1));
            format!("{name} along the direction x {x}, y {y}, z {z}")
        }
        [_, _] => format!("{name} but for one direction"),
        _ => format!("where {name} is"),
    })
}
