//! The axle and those that stand beside it: what is drawn of each, its pinned readings, and where it can't follow.

use super::{App, Told};
use crate::document::lesson::Lesson;
use crate::document::place::Place;
use crate::drawing::{Axle, Picture};
use crate::study::{Neighbour, Trouble};
use kernel::{Layout, Reading};

/// One axle of the row.
pub struct InRow<'a> {
    /// The axle.
    pub layout: &'a Layout,
    /// What is drawn of it; `None` where it can't be assembled.
    pub picture: Option<Picture<'a>>,
    /// The pinned readings, each with what may be told of it and its unit.
    pub readings: Vec<(&'static Reading, String)>,
    /// Why it is not where the others are; empty where it is.
    pub says: String,
}

/// The others, solved where the document is.
pub struct Others {
    axles: Vec<Result<Neighbour, Trouble>>,
    /// What a lesson hides is hidden of them too; it frees no joint of theirs.
    lesson: Option<Lesson>,
}

/// Less than this, mm or degrees, is where the others are.
const NEAR: f64 = 1e-9;

impl App {
    /// The axle and those beside it, in order, moved as one: each is as far from where its own car stands.
    pub fn row(&self) -> Vec<InRow<'_>> {
        let Others { axles, lesson } = self.asked.row.get_or_init(|| self.others_in_row());
        let others = self.document.beside.iter().zip(axles).map(|(layout, axle)| match axle {
            Ok(neighbour) => self.beside(layout, neighbour, lesson.as_ref()),
            Err(why) => InRow { layout, picture: None, readings: self.in_row(|_| None), says: why.sentence.clone() },
        });
        std::iter::once(self.own_in_row()).chain(others).collect()
    }

    fn others_in_row(&self) -> Others {
        let document = &self.document;
        let axles = document.beside.iter().map(|layout| Neighbour::new(layout, document)).collect();
        let lesson = document.lesson.as_ref().map(|lesson| Lesson { free: Vec::new(), ..lesson.clone() });
        Others { axles, lesson }
    }

    /// The document's own picture, without what only it would have.
    fn plain_picture(&self) -> Picture<'_> {
        Picture { compared: None, loads: None, deflected: None, space: None, slide: None, path: &[], ..self.picture() }
    }

    fn own_in_row(&self) -> InRow<'_> {
        let says = if self.study.trouble.is_some() {
            "Does not close here; drawn where it last did.".into()
        } else {
            String::new()
        };
        let readings = self.in_row(|reading| self.study.good.value(reading));
        InRow { layout: &self.document.layout, picture: Some(self.plain_picture()), readings, says }
    }

    fn beside<'a>(&'a self, layout: &'a Layout, neighbour: &'a Neighbour, lesson: Option<&'a Lesson>) -> InRow<'a> {
        let solved = &neighbour.solved;
        let picture = Picture {
            axle: Axle::of(solved),
            built: &solved.axle,
            whole: solved.whole.as_ref(),
            right: Axle::right_of(solved),
            lesson: lesson.map(|lesson| (lesson, &self.document.answer)),
            selected: None,
            mount: None,
            locks: &[],
            fault: None,
            ..self.plain_picture()
        };
        let readings = self.in_row(|reading| solved.value(reading));
        InRow { layout, picture: Some(picture), readings, says: self.falls_short(neighbour) }
    }

    fn in_row(&self, value: impl Fn(&Reading) -> Option<f64>) -> Vec<(&'static Reading, String)> {
        let pinned = self.document.pinned.iter().filter_map(|column| Reading::named(column));
        let units = self.document.units;
        let text = |reading: &'static Reading| match self.told(reading, value(reading)) {
            // No value has no unit.
            none @ Told::Value(None) => none.text(reading, units),
            told => told.with_unit(reading, units),
        };
        pinned.map(|reading| (reading, text(reading))).collect()
    }

    /// Why an axle is not where the others are, and where it is.
    fn falls_short(&self, Neighbour { solved, at }: &Neighbour) -> String {
        let (wanted, units) = (Place::of(&self.document), self.document.units);
        let off = |own: f64, wanted: f64| (own - wanted).abs() > NEAR;
        if !solved.axle.steered() && off(at.rack, wanted.rack) && !off(at.travel, wanted.travel) {
            return "Has no rack; drawn straight ahead.".into();
        }
        let parts = [
            (off(at.travel, wanted.travel), format!("travel {}", units.signed_length(at.travel))),
            (off(at.rack, wanted.rack), format!("rack {}", units.signed_length(at.rack))),
            (off(at.roll, wanted.roll), format!("roll {}", units.angle(at.roll, 1))),
        ];
        let ends: Vec<String> = parts.into_iter().filter(|(off, _)| *off).map(|(_, words)| words).collect();
        if ends.is_empty() {
            return String::new();
        }
        format!("Can’t follow so far: drawn at its end, {}.", ends.join(", "))
    }
}
