//! What explains a sheet, in sentences.

use crate::study::alignment::Question;
use crate::text::cause::{NOT, WITHIN, cause, fit};
use crate::text::number::{fixed, signed};
use crate::work::explain::{Answer, Measure, Told};
use kernel::{Change, Layout, LeftOrRight, Sides};

/// A cause in words, and how well it fits.
pub fn told(told: &Told, layout: &Layout, question: Question) -> Option<String> {
    let (change, of) = told.cause(layout)?;
    let side = match of {
        Sides::Both => "",
        Sides::One(LeftOrRight::Left) => ", left",
        Sides::One(LeftOrRight::Right) => ", right",
    };
    Some(cause(layout, change, told.amount, question.against) + side)
}

/// How well it fits, in words and as χ².
pub fn fits(told: &Told, spare: i32) -> [String; 2] {
    [fit(told.chi2, spare).into(), format!("χ² {}", squares(told.chi2))]
}

fn squares(chi2: f64) -> String {
    fixed(chi2, if chi2 < 100.0 { 1 } else { 0 })
}

/// What there is to say of all of them; `spare` is what a fit with one cause has to spare.
pub fn summary(answer: &Answer, spare: i32) -> String {
    if !answer.why_not.is_empty() {
        return answer.why_not.clone();
    }
    let nothing = squares(answer.with_nothing);
    let Some(first) = answer.causes.first() else { return "Nothing can be tried on this axle.".into() };
    match answer.tied {
        _ if spare >= 0 && fit(answer.with_nothing, spare + 1) == WITHIN => format!(
            "With these errors nothing needs to be wrong: the values fit a sound car (χ² {nothing}). Smaller errors, or values at another height, may tell more. What fits best all the same:"
        ),
        _ if spare > 0 && fit(first.chi2, spare) == NOT => format!(
            "No single thing explains all these values: look for two, or for a value that is wrong. The nearest (with nothing wrong χ² {nothing}):"
        ),
        1 => format!("One thing explains it best (with nothing wrong χ² {nothing}):"),
        tied => format!("{tied} things explain it equally well (with nothing wrong χ² {nothing}); each by itself:"),
    }
}

/// What is read, in words, and the decimals and unit of its value.
const NAMES: [(&str, &str, usize, &str); 6] = [
    ("camber_deg", "camber", 2, "°"),
    ("toe_deg", "toe of one wheel", 2, "°"),
    ("caster_sweep_deg", "caster by sweep", 2, "°"),
    ("kingpin_inclination_sweep_deg", "inclination by sweep", 2, "°"),
    ("track_change_mm", "how far out the wheel stands on the road, from the design’s place", 1, " mm"),
    ("wheelbase_change_mm", "how far forward the wheel stands, from the design’s place", 1, " mm"),
];

/// What would decide between the causes that are tied; `None` where one alone is first.
pub fn further(answer: &Answer, layout: &Layout, question: Question) -> Option<String> {
    let measure = answer.further.as_ref().filter(|_| answer.tied > 1)?;
    let (what, decimals, unit) = what(measure, layout)?;
    let side = if measure.against { "left less right" } else { measure.side.as_str() };
    let place = match measure.by {
        0.0 => String::new(),
        by if by > 0.0 => format!(", the wheel {} mm further up", fixed(by, 0)),
        by => format!(", the wheel {} mm further down", fixed(-by, 0)),
    };
    let reads = answer.causes.iter().zip(&measure.reads).take(answer.tied).filter_map(|(cause, read)| {
        Some(format!("{}{unit} if {}", signed(*read, decimals), told(cause, layout, question)?))
    });
    let reads: Vec<String> = reads.collect();
    let error = fixed(measure.error, decimals.max(1));
    let begin = match measure.pairs {
        0 => "Nothing a workshop usually measures would decide between them; most would still be told by",
        _ => "One more measurement would tell most:",
    };
    Some(format!("{begin} {what}, {side}{place} (usual error {error}{unit}). It would be {}.", reads.join("; ")))
}

fn what(measure: &Measure, layout: &Layout) -> Option<(String, usize, &'static str)> {
    if let Some((_, name, decimals, unit)) = NAMES.iter().find(|(column, ..)| *column == measure.what) {
        return Some((name.to_string(), *decimals, unit));
    }
    match Change::named(&measure.what, layout)? {
        Change::Length(member) => {
            Some((format!("the length of the {} by rule, from the design’s", member.name(layout)), 1, " mm"))
        }
        _ => Some(("ride height, as travel, + lower".into(), 0, " mm")),
    }
}
