//! By the drawing: what a hand on a joint keeps, and which wheel is shown where one is.

use super::pressed::Pressed;
use crate::app::{App, Show};
use crate::browser::dom::Veil;
use crate::browser::page::{Page, Pane};
use crate::document::Hands;
use kernel::LeftOrRight;

/// Both choices.
pub struct Switch {
    hands: Pressed<Hands>,
    wheels: Veil,
    wheel: Pressed<LeftOrRight>,
    as_left: Veil,
}

impl Switch {
    /// Finds them on the page.
    pub fn new(page: &Page) -> Switch {
        let hands = [(Hands::Design, "hands-design"), (Hands::Build, "hands-build")];
        let wheels = [(LeftOrRight::Left, "show-left"), (LeftOrRight::Right, "show-right")];
        Switch {
            hands: Pressed::new(page, &hands, |page, hands| page.send(Show::Hands(hands))),
            wheels: Veil::of("wheel-shown"),
            wheel: Pressed::new(page, &wheels, |page, side| page.send(Show::Side(side))),
            as_left: Veil::of("as-left"),
        }
    }
}

impl Pane for Switch {
    fn show(&self, _: &Page, app: &App) {
        let document = &app.document;
        self.hands.show(document.hands);
        self.wheels.set_hidden(document.whole);
        self.wheel.show(document.side);
        self.as_left.set_hidden(document.whole || document.side == LeftOrRight::Left);
    }
}
