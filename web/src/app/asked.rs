//! What is worked out of the present state when a pane asks for it: once, however many frames show it. Any message forgets it. Long because panes
//! ask much.

use super::App;
use super::remark::sentence;
use super::told::Told;
use crate::document::Document;
use crate::document::alignment::{Alignment, Row};
use crate::document::place::Place;
use crate::study::alignment::{Question, computed, diagnosis};
use crate::study::giving::{self, Given};
use crate::study::loaded::{self, Loaded, MemberRow};
use crate::study::marking::Marking;
use crate::study::setting::{self, Proposal, Tool, Wish};
use crate::study::space::Now;
use crate::study::twisted;
use crate::study::value::value_at;
use crate::study::{Standing, Taped};
use kernel::vary::{Outcome, Quantity, read};
use kernel::{Change, LeftOrRight, Load, Reading, Sides, Springing, SteeringMoment, frequency, remarks};
use std::cell::{OnceCell, RefCell};
use std::rc::Rc;

/// What has been asked of the present state.
#[derive(Default)]
pub struct Asked {
    members: OnceCell<Vec<MemberRow>>,
    side: OnceCell<Vec<(f64, f64)>>,
    given: OnceCell<Vec<Given>>,
    twisted: OnceCell<Option<twisted::Bushes>>,
    shafts: OnceCell<Option<f64>>,
    riding: OnceCell<Option<Riding>>,
    tried: RefCell<Option<(Springing, Option<f64>)>>,
    wished: RefCell<Option<(Wish, Option<Rc<Proposal>>)>>,
    tools: OnceCell<Vec<Tool>>,
    stood: RefCell<Vec<Stood>>,
    marking: OnceCell<Option<Marking>>,
    reached: OnceCell<bool>,
    remarks: OnceCell<Vec<String>>,
    /// How near pieces are to each other now.
    pub(super) space: OnceCell<Now>,
    /// The margins that are known are of an older question; `None` where nothing is asked.
    pub(super) stale: OnceCell<Option<bool>>,
    levers: OnceCell<Vec<Lever>>,
    built: OnceCell<Vec<Option<Standing>>>,
    taped: OnceCell<Taped>,
    aligned: OnceCell<Vec<[Option<f64>; 2]>>,
    pub(super) goal: super::goal::AskedGoal,
    /// What stands beside the axle.
    pub(super) row: OnceCell<super::row::Others>,
}

/// A quantity of a wheel where the car stands.
type Stood = ((LeftOrRight, &'static str), Option<f64>);

/// A lever arm where the car stands: without what the wheel has different from the design, and with it.
pub type Lever = (&'static Reading, [Told; 2]);

/// The lever arms that a wheel changes.
const LEVERS: [&str; 4] =
    ["scrub_radius_mm", "brake_lever_arm_mm", "kingpin_offset_wheel_centre_mm", "drive_lever_arm_mm"];

/// The spring that carries the standing vehicle, and what it does here.
#[derive(Clone, Copy)]
pub struct Riding {
    /// The spring.
    pub spring: Springing,
    /// Its rate at the wheel, N/mm.
    pub rate: Option<f64>,
    /// The natural frequency of the body on it, Hz.
    pub frequency: Option<f64>,
    /// The travel, mm, at which it holds the load shown.
    pub settled: Option<f64>,
}

impl App {
    /// What every member bears over all cases.
    pub fn members(&self) -> &[MemberRow] {
        self.asked.members.get_or_init(|| loaded::members(&self.study.good, &self.document))
    }

    /// The strut's side force, N, over travel, mm, under the load shown.
    pub fn side_over_travel(&self) -> &[(f64, f64)] {
        self.asked.side.get_or_init(|| loaded::side_over_travel(&self.study.good, &self.document))
    }

    /// What gives way under each load case; empty for a rigid axle.
    pub fn given(&self) -> &[Given] {
        self.asked.given.get_or_init(|| giving::given(&self.study.good, &self.document))
    }

    /// Bushes that resist turning; `None` without one.
    pub fn twisted(&self) -> Option<&twisted::Bushes> {
        self.asked.twisted.get_or_init(|| twisted::Bushes::of(&self.study.good)).as_ref()
    }

    /// The load shown with its forces; `None` while a lesson hides a lever arm: under a load of its own a moment is one.
    pub fn told_load(&self) -> Option<&Loaded> {
        self.study.loaded.as_ref().filter(|_| !self.hides_levers())
    }

    /// The moments about the steering axis, N·mm, that the load shown has on other axles, by their names; none while they are hidden, since the
    /// same axle may stand among the others.
    pub fn moments_elsewhere(&self) -> Vec<(&'static str, f64)> {
        match self.hides_levers() {
            true => Vec::new(),
            false => self.others.moments(&self.study.good, &self.document),
        }
    }

    /// What half-shafts of unequal length leave of the driving torque about the steering axes, N·mm. Of the right shaft it is known what it does with
    /// the wheels straight ahead.
    pub fn shaft_difference(&self) -> Option<f64> {
        *self.asked.shafts.get_or_init(|| {
            let good = &self.study.good;
            let ahead = self.told_load().filter(|l| self.document.rack == 0.0 && l.load.drive_torque != 0.0)?;
            SteeringMoment::shaft_difference(&ahead.load, good.linkage(), &good.now)
        })
    }

    /// What carries the car; `None` where the spring can't.
    pub fn riding(&self) -> Option<Riding> {
        *self.asked.riding.get_or_init(|| {
            let good = &self.study.good;
            let spring = good.springing()?;
            let rate = spring.at_wheel(good.linkage(), &good.now).map(|(_, rate)| rate);
            Some(Riding {
                spring,
                rate,
                frequency: rate.and_then(|rate| frequency(rate, good.layout().vehicle().sprung_mass())),
                settled: loaded::settled(good, &self.document, &spring),
            })
        })
    }

    /// The travel, mm, at which another spring would carry the standing vehicle; `None` where it can't.
    pub fn settles_on(&self, spring: Springing) -> Option<f64> {
        let mut tried = self.asked.tried.borrow_mut();
        if let Some((_, travel)) = tried.filter(|(other, _)| *other == spring) {
            return travel;
        }
        let good = &self.study.good;
        let standing = Load::braking(&good.layout().vehicle(), 0.0);
        let travel = spring.settles(good.linkage(), &standing, &good.rest);
        *tried = Some((spring, travel));
        travel
    }

    /// The axle as it is now, and then each variant, where it stands: what may be told of the pinned readings.
    pub fn told_variants(&self) -> Vec<Vec<String>> {
        let Document { layout, variants, pinned, whole, side, units, .. } = &self.document;
        let side = if *whole { LeftOrRight::Left } else { *side };
        let stand = || {
            let built = variants.iter().map(|variant| Standing::of(&variant.layout(layout), side));
            std::iter::once(Standing::of(layout, side)).chain(built).collect()
        };
        let told = |standing: &Option<Standing>| {
            let readings = pinned.iter().filter_map(|column| Reading::named(column));
            let value = |reading| standing.as_ref().and_then(|standing| standing.value(reading));
            readings.map(|reading| self.told(reading, value(reading)).text(reading, *units)).collect()
        };
        self.asked.built.get_or_init(stand).iter().map(told).collect()
    }

    /// Every member with its length, and what the layout says can be adjusted.
    pub fn tools(&self) -> &[Tool] {
        self.asked.tools.get_or_init(|| setting::tools(&self.document.layout))
    }

    /// What a reading can be set by.
    pub fn tools_for(&self, column: &str) -> Vec<Tool> {
        setting::tools_for(&self.document.layout, column)
    }

    /// What a reading is where the car stands, on the wheel that setting these sides reads.
    pub fn standing(&self, sides: Sides, column: &str) -> Option<f64> {
        setting::standing(&self.study.good.axle, sides, column)
    }

    /// What a quantity of a wheel is where the car stands, wheels ahead.
    pub fn stands(&self, side: LeftOrRight, quantity: Quantity) -> Option<f64> {
        let (mut stood, key) = (self.asked.stood.borrow_mut(), (side, quantity.column()));
        if let Some((_, value)) = stood.iter().find(|(known, _)| *known == key) {
            return *value;
        }
        let layout = &self.document.layout;
        let outcome = Outcome { quantity, side, travel: layout.changes.ride(), rack: 0.0 };
        let value = read(layout, &[outcome]).ok().and_then(|values| values[0]);
        stood.push((key, value));
        value
    }

    /// How a wish would be met; `None` where it can't, or a lesson hides the reading.
    pub fn proposal(&self, wish: &Wish) -> Option<Rc<Proposal>> {
        let mut wished = self.asked.wished.borrow_mut();
        if let Some((_, proposal)) = wished.as_ref().filter(|(before, _)| before == wish) {
            return proposal.clone();
        }
        let proposal = (!self.hides(wish.column)).then(|| wish.proposal(&self.document.layout)).flatten().map(Rc::new);
        *wished = Some((wish.clone(), proposal.clone()));
        proposal
    }

    /// What the tape readings that are typed say.
    pub fn taped(&self) -> &Taped {
        self.asked.taped.get_or_init(|| Taped::of(&self.document))
    }

    /// The marks of an answer that has been checked.
    pub fn marking(&self) -> Option<&Marking> {
        let checked = || self.document.lesson.as_ref().filter(|_| self.document.answer.checked);
        self.asked.marking.get_or_init(|| Some(checked()?.marking(&self.document))).as_ref()
    }

    /// True if a lesson has aims and the axle already reaches them all.
    pub fn reaches_aims(&self) -> bool {
        *self.asked.reached.get_or_init(|| {
            let aims = self.document.lesson.as_ref().map(|lesson| &lesson.aims).filter(|aims| !aims.is_empty());
            aims.is_some_and(|aims| aims.iter().all(|aim| aim.reached(&self.document)))
        })
    }

    /// Slips in the design and what meets here, in sentences; nothing in an exercise, which may be made of one.
    pub fn remarks(&self) -> &[String] {
        self.asked.remarks.get_or_init(|| {
            if self.document.sealed() {
                return Vec::new();
            }
            let layout = &self.document.layout;
            let slips = remarks(layout);
            slips.iter().map(|remark| sentence(remark, layout)).chain(self.meeting()).collect()
        })
    }

    /// The alignment sheet; an empty one where none is kept.
    pub fn alignment(&self) -> Alignment {
        self.document.papers.alignment.as_deref().cloned().unwrap_or_default()
    }

    /// What this axle has in a row of the alignment sheet, left and right, where it stands; of the height, travel.
    pub fn aligned(&self, row: Row) -> [Told; 2] {
        let all = || Row::ALL.iter().map(|(row, _)| computed(&self.study.good.axle, *row)).collect();
        let at = Row::ALL.iter().position(|(known, _)| *known == row).unwrap_or_default();
        let told = |value| {
            if told_by(row).iter().any(|column| self.hides(column)) { Told::Hidden } else { Told::Value(value) }
        };
        self.asked.aligned.get_or_init(all)[at].map(told)
    }

    /// True if the axle has a rack, and so a steering sweep.
    pub fn steered(&self) -> bool {
        self.study.good.axle.steered()
    }

    /// What the trade's table says of what the sheet has against this axle: a line a wheel, where it says something.
    pub fn diagnoses(&self, question: Question) -> Vec<String> {
        let sheet = self.alignment();
        let over = |row, side: LeftOrRight| {
            let (value, error) = question.value(&sheet, row, side)?;
            Some((value - self.aligned(row)[side.index()].value()?) / error)
        };
        let line = |side: LeftOrRight| {
            let says = diagnosis(&self.document.layout, over(Row::Inclination, side)?, over(Row::Camber, side)?)?;
            Some(format!("The trade’s table, {}: {says}.", side.name()))
        };
        LeftOrRight::BOTH.into_iter().filter_map(line).collect()
    }

    /// The lever arms that the wheel's changes have an effect on.
    pub fn levers(&self) -> &[Lever] {
        self.asked.levers.get_or_init(|| {
            let mut before = self.document.clone();
            for (sides, change, _) in
                self.document.layout.changes.iter().filter(|(_, change, _)| WHEEL_CHANGES.contains(change))
            {
                before.layout.changes.set(sides, change, 0.0);
            }
            let place = Place { travel: before.ride(), ..Place::default() };
            let both = |reading| [&before, &self.document].map(|of| self.told(reading, value_at(of, place, reading)));
            LEVERS.into_iter().filter_map(Reading::named).map(|reading| (reading, both(reading))).collect()
        })
    }
}

/// The readings that tell a row of the alignment sheet: where a lesson hides one, the row is hidden.
fn told_by(row: Row) -> &'static [&'static str] {
    match row {
        Row::Toe => &["toe_deg"],
        Row::Camber => &["camber_deg"],
        Row::Caster => &["caster_deg", "caster_sweep_deg"],
        Row::Inclination => &["kingpin_inclination_deg", "kingpin_inclination_sweep_deg"],
        Row::Included => &["kingpin_inclination_deg", "kingpin_inclination_sweep_deg", "camber_deg"],
        Row::Height => &[],
    }
}

/// What a wheel and its carrier can have different from the design, as the page asks for it.
pub const WHEEL_CHANGES: [Change; 7] = [
    Change::Offset,
    Change::Spacer,
    Change::CarrierCamber,
    Change::CarrierToe,
    Change::Width,
    Change::FreeRadius,
    Change::LoadedRadius,
];
