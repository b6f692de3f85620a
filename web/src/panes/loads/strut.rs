//! The strut's rod as a beam, its friction, and the spring tilt that spares it.

use crate::app::{App, Part, Show};
use crate::browser::dom::{Shown, find};
use crate::browser::page::Page;
use crate::browser::window::theme;
use crate::document::Loads;
use crate::drawing::beam;
use crate::drawing::svg::svg;
use crate::panes::boxes::{Boxes, Fold, Markup, Number};
use crate::plot::{self, Plot};
use crate::study::loaded::{Loaded, MOST_TILT};
use crate::text::number::fixed;
use kernel::field::DAMPER;
use kernel::{Damper, SEAT, SideFreeSpring};
use web_sys::Element;

const STRESS: [Number<Loads>; 1] = [("allowed stress, N/mm²", |l| l.stress, |l, x| l.stress = x)];

/// The rod's drawing and words, its side force over travel, and the numbers of the damper.
pub struct Strut {
    fold: Fold,
    drawing: Markup,
    words: Shown,
    curve: Markup,
    damper: Boxes<Damper>,
    stress: Boxes<Loads>,
}

impl Strut {
    /// Finds it on the page.
    pub fn new(page: &Page) -> Strut {
        Strut {
            fold: Fold::around(page, "rod-words"),
            drawing: Markup::new("rod-drawing"),
            words: Shown::text(find::<Element>("rod-words")),
            curve: Markup::new("side-plot"),
            damper: Boxes::new(page, "damper-boxes", &DAMPER, |document| Some(document.layout.damper()), Part::Damper),
            stress: Boxes::of_numbers(page, "damper-boxes", &STRESS, |document| Some(document.loads), Show::Loads),
        }
    }

    /// Shows it.
    pub fn show(&self, app: &App, loaded: Option<&Loaded>) {
        if !self.fold.is_open() {
            return;
        }
        let (document, good) = (&app.document, &app.study.good);
        let Strut { drawing, words, curve, .. } = self;
        self.damper.show(Some(&document.layout.damper()));
        self.stress.show(Some(&document.loads));
        let strut = loaded.and_then(|loaded| loaded.corner.members.strut_side(good.linkage()));
        let Some(rod) = loaded.and_then(|loaded| loaded.rod) else {
            drawing.show(String::new());
            curve.show(String::new());
            words.show(match (loaded, strut) {
                (None, _) => "Choose a load case.",
                (_, Some(_)) => "At this travel the guide would be at the mount or past the piston.",
                _ => "No strut: the damper has a joint at each end and takes no side force; its rod carries only the damper force.",
            });
            return;
        };
        drawing.show(svg(&beam(&rod), theme()));
        let share = loaded.and_then(|loaded| rod.friction_share(&loaded.corner.members));
        let side_free = loaded.and_then(|loaded| loaded.side_free);
        words.show(&format!(
            "Side force {} N at the top mount. Friction {} N, {} of the spring’s force. Bending stress {} N/mm²; {} N/mm² would need a rod of {} mm.{}",
            fixed(rod.side, 0),
            fixed(rod.friction, 0),
            share.map_or("–".into(), |share| format!("{} %", fixed(share * 100.0, 1))),
            fixed(rod.stress, 0),
            fixed(document.loads.stress, 0),
            fixed(rod.diameter_for(document.loads.stress), 1),
            side_free.map_or(String::new(), |spring| spared(&spring))
        ));
        let plot = Plot::over_travel(app.side_over_travel().to_vec(), good.now.travel, good.reach);
        curve.show(plot.map_or(String::new(), |plot| svg(&plot::scene(&plot, [380.0, 96.0]), theme())));
    }
}

/// What tilt of the spring would take the side force off, in words.
fn spared(spring: &SideFreeSpring) -> String {
    let tilt = spring.tilt();
    match spring.seat_offset(SEAT).filter(|_| tilt <= MOST_TILT) {
        Some(offset) => format!(
            " A spring tilted by {}° about its upper end would cancel the side force: its lower seat, {} mm below the mount, lies {} mm off the strut’s line (drawn).",
            fixed(tilt, 1),
            fixed(SEAT, 0),
            fixed(offset.norm(), 0)
        ),
        None => format!(" No practical tilt of the spring cancels it: that would take {}°.", fixed(tilt, 0)),
    }
}
