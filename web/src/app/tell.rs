//! A story is told over the reader's document, which its end brings back.

use super::App;
use crate::document::place::Place;
use crate::document::story::{Passing, Shot, Stress};
use crate::document::{Case, Freedom};
use crate::drawing::{Line, Slide};
use kernel::Reading;

/// A story being told.
#[derive(Clone, Debug)]
pub enum Tell {
    /// Shows a shot in passing.
    Shot(Box<Shot>),
    /// Shows one on its way from the one before.
    Passing(Box<Passing>),
    /// Ends the story.
    End,
}

impl App {
    /// Shows a shot, or what was there before.
    pub(super) fn tell(&mut self, tell: Tell) {
        match tell {
            Tell::Shot(shot) => self.show_shot(*shot, 0.0),
            Tell::Passing(passing) => self.show_shot(passing.shot, passing.paper),
            Tell::End => self.end_story(),
        }
    }

    fn show_shot(&mut self, shot: Shot, paper: f64) {
        self.untold.get_or_insert_with(|| Box::new(self.document.clone()));
        self.selected = shot.points_at.filter(|id| shot.layout.point(*id).is_some());
        self.mount = None;
        let document = &mut self.document;
        (document.layout, document.pinned, document.whole) = (shot.layout, shot.pinned, shot.whole);
        (document.compared, document.loads.case) = (shot.over, shot.case);
        Freedom::Travel.set(document, shot.travel);
        Freedom::Rack.set(document, shot.rack);
        Freedom::Roll.set(document, shot.roll);
        self.solve(None);
        self.slide = Some(Slide { stress: shot.stress, paper, zoom: shot.zoom, ..self.slide_saying(shot.caption) });
    }

    /// What is shown, with its pinned readings in letters that are read from afar.
    pub fn slide_saying(&self, said: String) -> Slide {
        let units = self.document.units;
        let line = |reading: &'static Reading| Line {
            column: reading.column,
            name: reading.full_name(),
            value: self.told(reading, self.study.good.value(reading)).with_unit(reading, units),
        };
        let readings = self.document.pinned.iter().filter_map(|column| Reading::named(column)).map(line).collect();
        let load = Some(self.document.loads.case).filter(|case| *case != Case::None);
        let load = load.and(self.study.loaded.as_ref()).map_or(String::new(), |loaded| format!("; {}", loaded.name));
        let place = Place::of(&self.document).words(units);
        Slide {
            said,
            name: self.document.layout.name.clone(),
            place: format!("{place}{load}"),
            readings,
            ..Slide::default()
        }
    }

    /// True while a story shows how near the wheel comes to what is in its way.
    pub(super) fn tells_of_room(&self) -> bool {
        self.slide.as_ref().is_some_and(|slide| slide.stress == Some(Stress::Room))
    }

    /// Brings back what a story was told over.
    pub(super) fn end_story(&mut self) {
        if let Some(before) = self.untold.take() {
            (self.document, self.slide, self.selected) = (*before, None, None);
            self.solve(None);
        }
    }
}
