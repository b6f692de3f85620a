//! A live picture of a help page: the state of a link, drawn as the page draws it, and what the kernel reads off it at that moment. Nothing of it is kept:
//! text and link stand in `web/help`, the picture and its numbers are made when somebody looks.

use super::picture::curve_name;
use crate::app::{App, Told};
use crate::drawing::svg::svg;
use crate::drawing::{Arrangement, P, Scene, Sheet, Theme, View, draw};
use crate::link;
use crate::plot::{self, Plot};
use crate::text::number::Units;
use kernel::{Group, Reading};

/// Size of a view, and of a curve, px: a phone shows it a little smaller.
const VIEW: P = [380.0, 430.0];
const CURVE: P = [380.0, 190.0];

/// The views by the names that help pages use; anything else that is drawn is a reading's curve.
const VIEWS: [(&str, View); 4] =
    [("front", View::Front), ("side", View::Side), ("plan", View::Plan), ("pictorial", View::Pictorial)];

/// A picture with its numbers.
pub struct Illustration {
    app: App,
    draws: Draws,
    tells: Vec<&'static Reading>,
    /// The link has the reader's units.
    as_linked: bool,
}

/// What is drawn of the state.
enum Draws {
    View(&'static str, View),
    Curve(&'static Reading, Box<Plot>),
}

/// A reading of the state, as the page tells it.
pub struct Number {
    /// Its name.
    pub name: String,
    /// Its value with its unit.
    pub value: String,
    /// That of the axle laid over, which is in the same position.
    pub laid_over: Option<String>,
}

impl Illustration {
    /// The state of a link's parameters; what is drawn of it, a view or a reading over whatever the link's curves run over; and which readings are told,
    /// by their names in links, with a space between. Lengths and angles are in the reader's units. What is wrong with it is a sentence.
    pub fn read(shows: &str, draws: &str, tells: &str, units: Units) -> Result<Illustration, String> {
        let (mut document, faults) = link::read(shows).ok_or("The link of a picture is empty.")?;
        let as_linked = document.units == units;
        document.units = units;
        let app = App::new(document, Vec::new());
        let trouble = app.study.trouble.iter().map(|trouble| trouble.sentence.clone());
        if let Some(fault) = faults.into_iter().chain(trouble).next() {
            return Err(fault);
        }
        let named = |name: &str| Reading::named(name).ok_or(format!("“{name}” is not a reading."));
        let draws = match VIEWS.iter().find(|(name, _)| *name == draws) {
            Some((name, view)) => Draws::View(name, *view),
            None => {
                let reading = named(draws)?;
                let plot = Plot::new(&app.study, &app.document, reading).filter(|_| !app.hides(reading.column));
                Draws::Curve(reading, Box::new(plot.ok_or(format!("This axle has no curve of “{draws}”."))?))
            }
        };
        let tells = tells.split_whitespace().map(named).collect::<Result<_, _>>()?;
        Ok(Illustration { app, draws, tells, as_linked })
    }

    /// What it shows, for who listens, and above a curve.
    pub fn name(&self) -> String {
        match &self.draws {
            Draws::View(name, _) => format!("{}, {name} view", self.app.document.layout.name),
            Draws::Curve(reading, _) => curve_name(&self.app, reading),
        }
    }

    /// The link that opens it, in the reader's units.
    pub fn link(&self, shows: &str) -> String {
        if self.as_linked { shows.into() } else { link::write(&self.app.document) }
    }

    /// True for a curve, which has to be named.
    pub fn is_curve(&self) -> bool {
        matches!(self.draws, Draws::Curve(..))
    }

    /// The picture. `mark` sets what it calls its clips apart from those of other pictures on the page.
    pub fn svg(&self, theme: Theme, mark: &str) -> String {
        let text = svg(&self.scene(), theme);
        text.replace("id=\"c", &format!("id=\"{mark}c")).replace("url(#c", &format!("url(#{mark}c"))
    }

    fn scene(&self) -> Scene {
        match &self.draws {
            Draws::View(_, view) => {
                let picture = self.app.picture();
                draw(&picture, &Sheet::fit(VIEW, Arrangement::One(*view), &picture))
            }
            Draws::Curve(_, plot) => plot::scene(plot, CURVE),
        }
    }

    /// What is read off it.
    pub fn numbers(&self) -> impl Iterator<Item = Number> + '_ {
        let App { document, study, .. } = &self.app;
        self.tells.iter().map(move |reading| {
            let told = |value| self.app.told(reading, value);
            let apart = reading.group != Group::Position;
            let other = study.compared.as_ref().filter(|_| apart).map(|other| told(other.value(reading)));
            Number {
                name: reading.full_name(),
                value: told(study.good.value(reading)).with_unit(reading, document.units),
                laid_over: other.filter(Told::is_some).map(|told| told.with_unit(reading, document.units)),
            }
        })
    }
}
