//! Before and after: the axle that this one is told against, and what is different.

use crate::app::{App, Told};
use crate::document::Document;
use crate::study::{Solved, laid_over};
use crate::text::change::changes;
use crate::text::number::{Units, fixed};
use kernel::{Layout, Reading};

/// More rows of moved joints than this make no post.
const MOST_MOVED: usize = 12;

/// An axle beside which the present one is told.
pub struct Before {
    /// What it is called.
    pub name: String,
    layout: Layout,
    solved: Box<Solved>,
}

impl Before {
    /// The axle laid over; without one, this axle as the page opened with it, if it has become another since. `None` where it can't get here.
    pub fn of(app: &App) -> Option<Before> {
        let document = &app.document;
        let opened = &app.opened().layout;
        let (name, layout) = match &document.compared {
            Some(layout) if layout.name != document.layout.name => (layout.name.clone(), layout),
            Some(layout) => ("before".to_string(), layout),
            None if opened == &document.layout => return None,
            None => ("as opened".to_string(), opened),
        };
        let asked = Document { compared: Some(layout.clone()), ..document.clone() };
        Some(Before { name, layout: layout.clone(), solved: laid_over(&asked, None)? })
    }

    /// A reading before and now, with the difference: “−0.50° → −0.62° (−0.12°)”, or that it is unchanged; what a lesson hides is a `?`.
    pub fn and_now(&self, app: &App, reading: &Reading) -> String {
        let units = app.document.units;
        let values = [self.solved.value(reading), app.study.good.value(reading)];
        let told = |value: Option<f64>| match app.told(reading, value) {
            Told::Hidden => None,
            Told::Value(value) => Some(units.with_unit(value, reading)),
        };
        let [Some(before), Some(now)] = values.map(told) else { return "?".into() };
        if before == now {
            return format!("{now} (unchanged)");
        }
        let apart = values[0].zip(values[1]).map(|(before, now)| now - before);
        let apart = apart.map(|apart| units.with_unit(Some(apart), reading));
        let sign = |text: String| if text.starts_with('−') { text } else { format!("+{text}") };
        format!("{before} → {now}{}", apart.map_or(String::new(), |apart| format!(" ({})", sign(apart))))
    }

    /// What is different, a line each: rest coordinates of joints that both axles have, then what is not as designed.
    pub fn different(&self, now: &Layout, units: Units) -> Vec<String> {
        let moved = now.points().flat_map(|(id, at)| {
            let was = self.layout.point(id);
            let axis = move |axis: usize| {
                let was = was.filter(|was| (was[axis] - at[axis]).abs() > SEEN)?;
                let [from, to] = [was[axis], at[axis]].map(|mm| units.length(mm));
                Some(format!("{} {} {from} → {to} {}", id.name(), ["x", "y", "z"][axis], units.length_name()))
            };
            (0..3).filter_map(axis)
        });
        let mut lines: Vec<String> = moved.collect();
        if lines.len() > MOST_MOVED {
            let more = lines.len() - MOST_MOVED;
            lines.truncate(MOST_MOVED);
            lines.push(format!("and {more} more coordinates"));
        }
        let [was, is] = [&self.layout, now].map(|layout| changes(layout).join("; "));
        if was != is {
            let none = |text: String| if text.is_empty() { "none".to_string() } else { text };
            lines.push(format!("changes to parts: {} → {}", none(was), none(is)));
        }
        let static_angles = [
            ("static camber", self.layout.wheel.camber, now.wheel.camber),
            ("static toe", self.layout.wheel.toe, now.wheel.toe),
        ];
        let set = static_angles.into_iter().filter(|(_, was, is)| was != is);
        lines.extend(set.map(|(name, was, is)| format!("{name} {}° → {}°", fixed(was, 2), fixed(is, 2))));
        lines
    }
}

/// A coordinate that differs by less than this is shown as the same, mm.
const SEEN: f64 = 0.05;
