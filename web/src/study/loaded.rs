//! What is solved for the load shown: forces in everything, what the steering feels, and what the strut's rod bears.

use super::solved::Solved;
use crate::document::{Case, Document, Loads};
use crate::text::number::fixed;
use kernel::{
    Axle, Bending, Constraint, Corner, Demand, Layout, Load, LoadCase, Material, Member, NoLoad, RodForces, RollFrom,
    Section, Setting, SideFreeSpring, SpringOn, Springing, State, Statics, SteeringMoment, Strength, Vec3,
};

/// An axle under a load.
pub struct Loaded {
    /// What the load is called.
    pub name: &'static str,
    /// The load.
    pub load: Load,
    /// Forces at every joint.
    pub corner: Corner,
    /// About the steering axis; `None` for an unsteered axle.
    pub moment: Option<SteeringMoment>,
    /// The strut's rod, if there is one.
    pub rod: Option<RodForces>,
    /// The spring whose line would take the side force off the strut, if there is one.
    pub side_free: Option<SideFreeSpring>,
}

/// A spring tilted further than this against its strut, degrees, has no room beside the wheel (common practice, no source).
pub const MOST_TILT: f64 = 30.0;

/// The load that a document shows on a solved axle; `None` for none, or where the vehicle can't have it.
pub fn load(solved: &Solved, document: &Document) -> Option<Load> {
    chosen(&document.loads, &setting(solved)).ok().flatten()
}

/// What the solved axle's load cases depend on.
pub(super) fn setting(solved: &Solved) -> Setting {
    Setting::of(&solved.axle)
}

fn chosen(loads: &Loads, setting: &Setting) -> Result<Option<Load>, NoLoad> {
    match loads.case {
        Case::None => Ok(None),
        Case::Of(at) => LoadCase::all().get(at).map(|case| case.load(setting)).transpose(),
        Case::Own => {
            let [a, b, c, d, e, f] = loads.own;
            let (road, centre) = (Vec3::new(a, b, c), Vec3::new(d, e, f));
            Ok(Some(Load { road, centre, drive_torque: loads.own_torque * 1000.0, ..Load::default() }))
        }
    }
}

/// What has to be said of the load chosen: why the vehicle has none, where its roll stiffness is from, which friction it needs.
pub fn remarks(solved: &Solved, document: &Document) -> String {
    let setting = setting(solved);
    let load = match chosen(&document.loads, &setting) {
        Err(why) => return why.to_string(),
        Ok(load) => load,
    };
    let Case::Of(at) = document.loads.case else { return String::new() };
    let (Some(case), Some(load)) = (LoadCase::all().get(at), load) else { return String::new() };
    let mut said = Vec::new();
    if case.rear[1] > 0.0 {
        let from = match setting.vehicle.roll_stiffness_from {
            RollFrom::Numbers => "typed under Vehicle",
            RollFrom::Axle => "of this axle’s springs and anti-roll bar",
        };
        said.push(format!("Front roll stiffness {} N·m/°, {from}.", fixed(setting.front_stiffness, 0)));
        said.push(match setting.vehicle.pneumatic_trail {
            0.0 => "No pneumatic trail: the lateral force acts at the contact point.".into(),
            trail => format!("The lateral force acts {} mm behind the contact point.", fixed(trail, 1)),
        });
    }
    let [front, rear] = case.friction_missing(&setting, &load);
    for (friction, what) in [(front, "This wheel"), (rear, "The rear axle")] {
        if let Some(friction) = friction {
            let friction = fixed(friction, 2);
            said.push(format!("{what} would need a friction coefficient of {friction}; a dry road gives about 1."));
        }
    }
    said.join(" ")
}

/// The travel, mm, at which a spring holds the load shown, where both wheels can be taken to bear it.
pub fn settled(solved: &Solved, document: &Document, spring: &Springing) -> Option<f64> {
    let even = match document.loads.case {
        Case::None => false,
        Case::Of(at) => LoadCase::all().get(at)?.even,
        Case::Own => true,
    };
    let load = load(solved, document).filter(|_| even)?;
    spring.settles(solved.linkage(), &load, &solved.rest)
}

impl Loaded {
    /// The axle under the document's load, if it shows one and the axle can carry any.
    pub fn of(solved: &Solved, document: &Document) -> Option<Loaded> {
        let load = load(solved, document)?;
        let (linkage, state) = (solved.linkage(), &solved.now);
        let wrench = load.wrench(state);
        let corner = Corner::under(linkage, state, &Statics::at(state), &wrench)?;
        let name = document.loads.case.name();
        let rod = RodForces::of(linkage, state, &corner.members, &solved.layout().damper());
        let (moment, side_free) = (SteeringMoment::of(&load, state), SideFreeSpring::of(linkage, state, &wrench));
        Some(Loaded { name, moment, side_free, load, corner, rod })
    }
}

/// One member over all cases, N, tension positive, a pushing spring negative; a strut's side force as its size.
pub struct MemberRow {
    /// Name of the member on the page.
    pub name: &'static str,
    /// Under the load shown.
    pub now: Option<f64>,
    /// Under each of [`LoadCase::all`]; `None` where the vehicle can't have the case.
    pub cases: Vec<Option<f64>>,
    /// Its length where it is a rod or a wishbone's leg, mm.
    pub length: Option<f64>,
    /// How the spring bends it.
    pub bent: Bent,
}

/// How the spring bends a member.
#[derive(Clone, Debug, PartialEq)]
pub enum Bent {
    /// Not at all.
    No,
    /// An arm, under each of [`LoadCase::all`].
    By(Vec<Option<Bending>>),
    /// A wishbone's leg: as a frame, which is not looked into.
    Frame,
}

impl MemberRow {
    /// The greatest tension over all cases with its case; `None` if it is never pulled.
    pub fn tension(&self) -> Option<(f64, usize)> {
        self.extreme(1.0)
    }

    /// The greatest compression, as a negative force.
    pub fn compression(&self) -> Option<(f64, usize)> {
        self.extreme(-1.0).map(|(force, at)| (-force, at))
    }

    /// How many times the worst case could grow before the member yields or buckles; `None` where it is not known.
    pub fn reserve(&self, section: Section, material: Material) -> Option<f64> {
        let strength = Strength::of(self.length?, section, material);
        if self.bent == Bent::Frame {
            return None;
        }
        let mut least = f64::INFINITY;
        for at in 0..self.cases.len() {
            for (force, moment) in self.along(at) {
                least = least.min(strength.reserve(force, moment)?);
            }
        }
        Some(least).filter(|reserve| reserve.is_finite())
    }

    /// The forces along it under a case with the moment that bends it: one, or those on both sides of a spring's foot.
    fn along(&self, at: usize) -> Vec<(f64, f64)> {
        match &self.bent {
            Bent::By(bent) => bent[at].iter().flat_map(|bent| bent.axial.map(|force| (force, bent.moment))).collect(),
            Bent::No | Bent::Frame => self.cases[at].iter().map(|force| (*force, 0.0)).collect(),
        }
    }

    fn extreme(&self, sign: f64) -> Option<(f64, usize)> {
        let forces =
            (0..self.cases.len()).flat_map(|at| self.along(at).into_iter().map(move |(force, _)| (sign * force, at)));
        forces.max_by(|a, b| a.0.total_cmp(&b.0)).filter(|(force, _)| *force > 0.0)
    }
}

/// Mass of all rods and legs of one section, kg.
pub fn mass(rows: &[MemberRow], section: Section, material: Material) -> f64 {
    rows.iter().filter_map(|row| row.length).map(|length| Strength::of(length, section, material).mass).sum()
}

const NAMES: [(Member, &str); 5] = [
    (Member::LowerFront, "lower front"),
    (Member::LowerRear, "lower rear"),
    (Member::UpperFront, "upper front"),
    (Member::UpperRear, "upper rear"),
    (Member::TrackRod, "track rod"),
];

/// Every member over all cases at the present position; empty where the members do not hold the wheel.
pub fn members(solved: &Solved, document: &Document) -> Vec<MemberRow> {
    let (linkage, state) = (solved.linkage(), &solved.now);
    let (setting, statics) = (setting(solved), Statics::at(state));
    let under = |load: &Load| Corner::under(linkage, state, &statics, &load.wrench(state));
    if under(&Load::default()).is_none() {
        return Vec::new();
    }
    let corners: Vec<Option<Corner>> = LoadCase::all().iter().map(|case| under(&case.load(&setting).ok()?)).collect();
    let over = |force: &dyn Fn(&Corner) -> Option<f64>| -> Vec<Option<f64>> {
        corners.iter().map(|corner| force(corner.as_ref()?)).collect()
    };
    let now = load(solved, document).and_then(|load| under(&load)).map(|corner| corner.members);
    let mut rows = Vec::new();
    for (member, name) in NAMES {
        let length = linkage.rows().iter().find(|row| row.member == member).and_then(|row| match row.constraint {
            Constraint::Rod { length, .. } => Some(length),
            Constraint::Slide { .. } => None,
        });
        if length.is_some() {
            let bent = |corner: &Corner| corner.bent.filter(|bent| bent.member == member);
            let bends: Vec<_> = corners.iter().map(|corner| bent(corner.as_ref()?)).collect();
            rows.push(MemberRow {
                name,
                now: now.as_ref().and_then(|now| now.tension(linkage, member)),
                cases: over(&|corner| corner.members.tension(linkage, member)),
                length,
                bent: match (linkage.spring_on(), member) {
                    (SpringOn::Lower, Member::LowerFront | Member::LowerRear)
                    | (SpringOn::Upper, Member::UpperFront | Member::UpperRear) => Bent::Frame,
                    _ if bends.iter().all(Option::is_none) => Bent::No,
                    _ => Bent::By(bends),
                },
            });
        }
    }
    let others = [
        ("spring", now.map(|now| -now.spring), over(&|corner| Some(-corner.members.spring))),
        (
            "strut side force (magnitude)",
            now.and_then(|now| now.strut_side(linkage)),
            over(&|corner| corner.members.strut_side(linkage)),
        ),
    ];
    for (name, now, cases) in others {
        if cases.iter().any(Option::is_some) {
            rows.push(MemberRow { name, now, cases, length: None, bent: Bent::No });
        }
    }
    rows
}

/// Side force of the strut (N) over travel (mm) under the load shown, at the present rack.
pub fn side_over_travel(solved: &Solved, document: &Document) -> Vec<(f64, f64)> {
    let Some(load) = load(solved, document) else { return Vec::new() };
    let side = |state: &State| Statics::at(state).members(&load.wrench(state))?.strut_side(solved.linkage());
    solved.over_travel().points.iter().filter_map(|(travel, state)| Some((*travel, side(state)?))).collect()
}

/// The moment about the steering axis (N·mm) of the same case of the same vehicle on another axle, at the same travel and rack; `None` where that axle
/// has none or can't get there.
pub fn moment_on(other: &Layout, solved: &Solved, document: &Document) -> Option<f64> {
    let other = Layout { vehicle: Some(solved.layout().vehicle()), ..other.clone() };
    let axle = Axle::standing_at(&other, document.ride()).ok()?;
    let now = axle.state(Demand::new(document.travel, document.rack)).ok()?;
    SteeringMoment::of(&chosen(&document.loads, &Setting::of(&axle)).ok()??, &now).map(|moment| moment.total())
}
