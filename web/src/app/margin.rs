//! How far readings may be off where points are known to ± so much: what their ± mean, and what has been worked out of it beside the page.

use super::App;
use crate::plot::Band;
use crate::study::Known;
use crate::study::margins::{Margins, Question};
use crate::text::number::{Units, fixed};
use kernel::vary::{Design, Distribution, Kind, Parameter};
use kernel::{Change, PointId, Reading};

/// What the points' ± mean is chosen, or margins have come. No step to undo: neither is of the axle.
#[derive(Clone, Debug)]
pub enum Margin {
    /// What is off.
    Kind(Kind),
    /// How it is off, within its ±.
    Distribution(Distribution),
    /// Margins, and what they answer; none where no point has a ± that counts.
    Told(Option<Box<(Question, Margins)>>),
}

/// What the page holds of it.
#[derive(Default)]
pub(super) struct Held {
    kind: Kind,
    distribution: Distribution,
    told: Option<Box<(Question, Margins)>>,
}

/// A reading's ±, and whether it is one of before the last change.
#[derive(Clone, Debug, PartialEq)]
pub struct PlusMinus {
    /// With its sign and the reader's unit: `± 0.12°`.
    pub text: String,
    /// It answers an older question.
    pub stale: bool,
}

impl App {
    /// Lets it take effect.
    pub(super) fn margin(&mut self, margin: Margin) {
        match margin {
            Margin::Kind(kind) => self.margins.kind = kind,
            Margin::Distribution(distribution) => self.margins.distribution = distribution,
            Margin::Told(told) => self.margins.told = told,
        }
    }

    /// What the points' ± say is off, and how.
    pub fn errors_mean(&self) -> (Kind, Distribution) {
        (self.margins.kind, self.margins.distribution)
    }

    /// The points whose ± count: of built parts, joints only.
    pub fn errors_that_count(&self) -> Vec<(PointId, f64)> {
        self.errors_of(self.margins.kind)
    }

    /// The points whose ± count if they are of this kind.
    pub fn errors_of(&self, kind: Kind) -> Vec<(PointId, f64)> {
        let all = Parameter::all(&self.document.layout);
        let counts = |id: PointId| {
            all.contains(&match kind {
                Kind::Design => Parameter::Design(Design::Coordinate(id, 0)),
                Kind::Build => Parameter::Change(Change::Joint(id, 0)),
            })
        };
        self.document.errors.iter().copied().filter(|(id, _)| counts(*id)).collect()
    }

    /// The wheel that is shown, with its points' ±; nothing where no ± counts.
    pub fn known(&self) -> Option<Known> {
        let points = if self.document.errors.is_empty() { Vec::new() } else { self.errors_that_count() };
        let (kind, distribution) = self.errors_mean();
        (!points.is_empty()).then(|| Known {
            layout: self.document.layout.clone(),
            side: self.study.good.axle.shown(),
            kind,
            distribution,
            points,
        })
    }

    /// What is to be worked out for the wheel as it is shown; nothing where no ± counts.
    pub fn margins_question(&self) -> Option<Question> {
        let good = &self.study.good;
        Some(Question {
            known: self.known()?,
            at: [good.now.travel, good.now.position.rack],
            reach: good.reach,
            columns: self.document.pinned.clone(),
        })
    }

    /// True if margins are known, of whatever.
    pub fn knows_margins(&self) -> bool {
        self.margins.told.is_some()
    }

    /// True if they are of this question.
    pub fn knows_margins_of(&self, question: &Question) -> bool {
        self.margins.told.as_ref().is_some_and(|told| told.0 == *question)
    }

    /// Margins that are known, and true if they are of an older question; none once there is nothing to ask.
    fn margins(&self) -> Option<(&Margins, bool)> {
        let (asked, told) = self.margins.told.as_deref()?;
        let age = || self.margins_question().map(|now| self.study.trouble.is_some() || now != *asked);
        self.asked.stale.get_or_init(age).map(|stale| (told, stale))
    }

    /// A reading's ± where the wheel is shown; nothing while it is hidden or not known.
    pub fn plus_minus(&self, reading: &Reading) -> Option<PlusMinus> {
        let (told, stale) = self.margins().filter(|_| !self.hides(reading.column))?;
        let (_, margin) = told.here.iter().find(|(column, _)| column == reading.column)?;
        Some(PlusMinus { text: plus_minus(self.document.units, reading, *margin), stale })
    }

    /// The same for paper and pictures, which have nothing pale: empty unless it is of now.
    pub fn printed_plus_minus(&self, reading: &Reading) -> String {
        let now = self.plus_minus(reading).filter(|found| !found.stale);
        now.map_or(String::new(), |found| format!(" {}", found.text))
    }

    /// Between what a reading's curve over travel may lie; nothing while it is hidden or not known.
    pub fn band(&self, reading: &Reading) -> Option<Band> {
        let (told, stale) = self.margins().filter(|_| !self.hides(reading.column))?;
        let (_, factor, _) = self.document.units.shown(reading);
        let points = told.along.iter().filter(|(column, _)| column == reading.column);
        let line = |sign: f64| {
            points.clone().map(|(_, [x, value, margin])| (*x, (value + sign * margin) * factor)).collect::<Vec<_>>()
        };
        Some(Band { lines: [line(1.0), line(-1.0)], stale }).filter(|band| band.lines[0].len() > 1)
    }

    /// What ± behind a reading means; nothing while no ± counts.
    pub fn margins_mean(&self) -> Option<String> {
        let (kind, distribution) = self.errors_mean();
        (!self.document.errors.is_empty() && !self.errors_that_count().is_empty()).then(|| {
            let (said, off) = match kind {
                Kind::Design => ("measured", "joints may be elsewhere, and lengths follow"),
                Kind::Build => ("built", "joints sit elsewhere on their parts, and the wheel follows"),
            };
            let within = match distribution {
                Distribution::Uniform => "anywhere within it alike",
                Distribution::Normal => "normally, ± being 2 σ",
            };
            format!(
                "± is 2 σ by slopes: about 95 of 100 axles lie within. The points’ ± say how they were {said}: {off}, {within}. Points without ± count as exact."
            )
        })
    }
}

/// A margin with as many digits as say something: at least the reading's own, and two where it has fewer.
fn plus_minus(units: Units, reading: &Reading, margin: f64) -> String {
    let (decimals, factor, sign) = units.shown(reading);
    let size = margin.abs() * factor;
    let decimals = if size >= 100.0 { 0 } else { decimals };
    format!("± {}{sign}", fixed(size, decimals))
}
