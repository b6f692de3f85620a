//! Items moved across the paper: a scene as a part of another one.

use super::scene::{Area, Item, P, Step, Text};

impl Item {
    /// The same elsewhere on paper, px.
    #[must_use]
    pub fn moved(self, by: P) -> Item {
        let at = |[x, y]: P| [x + by[0], y + by[1]];
        match self {
            Item::Path { steps, fill, stroke } => {
                let step = |step| match step {
                    Step::Move(p) => Step::Move(at(p)),
                    Step::Line(p) => Step::Line(at(p)),
                    Step::Circle { centre, radius } => Step::Circle { centre: at(centre), radius },
                    Step::Close => Step::Close,
                };
                Item::Path { steps: steps.into_iter().map(step).collect(), fill, stroke }
            }
            Item::Text(text) => Item::Text(Text { at: at(text.at), ..text }),
            Item::Clip { area, items } => {
                let area = match area {
                    Area::Rect { min, max } => Area::Rect { min: at(min), max: at(max) },
                    Area::Circle { centre, radius } => Area::Circle { centre: at(centre), radius },
                };
                Item::Clip { area, items: items.into_iter().map(|item| item.moved(by)).collect() }
            }
        }
    }
}
