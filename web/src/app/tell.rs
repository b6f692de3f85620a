//! A story is told over the reader's document, which its end brings back.

use super::App;
use crate::document::Freedom;
use crate::document::story::Shot;
use kernel::Reading;

/// A story being told.
#[derive(Clone, Debug)]
pub enum Tell {
    /// Shows a shot in passing.
    Shot(Box<Shot>),
    /// Ends the story.
    End,
}

impl App {
    /// Shows a shot, or what was there before.
    pub(super) fn tell(&mut self, tell: Tell) {
        match tell {
            Tell::Shot(shot) => self.show_shot(*shot),
            Tell::End => self.end_story(),
        }
    }

    fn show_shot(&mut self, shot: Shot) {
        self.untold.get_or_insert_with(|| Box::new(self.document.clone()));
        self.selected = shot.points_at.filter(|id| shot.layout.point(*id).is_some());
        self.mount = None;
        let document = &mut self.document;
        (document.layout, document.pinned, document.whole) = (shot.layout, shot.pinned, shot.whole);
        Freedom::Travel.set(document, shot.travel);
        Freedom::Rack.set(document, shot.rack);
        Freedom::Roll.set(document, shot.roll);
        self.solve(None);
        let readings = self.document.pinned.iter().filter_map(|column| Reading::named(column));
        let told = |reading| self.told(reading, self.study.good.value(reading)).with_unit(reading, self.document.units);
        let readings = readings.map(|reading| format!("{} {}", reading.name, told(reading))).collect();
        self.caption = Some((shot.caption, readings));
    }

    /// Brings back what a story was told over.
    pub(super) fn end_story(&mut self) {
        if let Some(before) = self.untold.take() {
            (self.document, self.caption, self.selected) = (*before, None, None);
            self.solve(None);
        }
    }
}
