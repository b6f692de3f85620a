//! What is solved for the load shown: forces in everything, what the steering feels, and what the strut's rod bears.

use crate::document::{Case, Document, Loads};
use crate::study::Solved;
use kernel::{
    Constraint, Corner, Demand, Layout, Linkage, Load, LoadCase, Material, Member, Position, RodForces, Section,
    Setting, SpringOn, Springing, State, Statics, SteeringMoment, Strength, Vec3, side_free_spring,
};

/// An axle under a load.
pub struct Loaded {
    /// The load.
    pub load: Load,
    /// Forces at every joint.
    pub corner: Corner,
    /// About the steering axis; `None` for an unsteered axle.
    pub moment: Option<SteeringMoment>,
    /// The strut's rod, if there is one.
    pub rod: Option<RodForces>,
    /// How far the spring's line would have to be tilted, degrees, for the strut to carry no side force.
    pub sparing_tilt: Option<f64>,
}

/// The load that a document shows on a solved axle.
pub fn load(solved: &Solved, document: &Document) -> Option<Load> {
    chosen(&document.loads, &Setting::new(&solved.layout, &solved.rest))
}

fn chosen(loads: &Loads, setting: &Setting) -> Option<Load> {
    match loads.case {
        Case::None => None,
        Case::Of(at) => Some((LoadCase::all().get(at)?.load)(setting)),
        Case::Own => {
            let [a, b, c, d, e, f] = loads.own;
            Some(Load { road: Vec3::new(a, b, c), centre: Vec3::new(d, e, f), ..Load::default() })
        }
    }
}

/// The travel, mm, at which a spring holds the load shown, where both wheels can be taken to bear it.
pub fn settled(solved: &Solved, document: &Document, spring: &Springing) -> Option<f64> {
    let even = match document.loads.case {
        Case::None => false,
        Case::Of(at) => LoadCase::all().get(at)?.even,
        Case::Own => true,
    };
    let load = load(solved, document).filter(|_| even)?;
    spring.settles(&solved.linkage, &load, &solved.rest)
}

impl Loaded {
    /// The axle under the document's load, if it shows one and the axle can carry any.
    pub fn of(solved: &Solved, document: &Document) -> Option<Loaded> {
        let load = load(solved, document)?;
        let (linkage, state) = (&solved.linkage, &solved.now);
        let wrench = load.wrench(state);
        let corner = Corner::under(linkage, state, &Statics::at(state), &wrench)?;
        let damper = solved.layout.damper();
        let rod = RodForces::of(linkage, state, &corner.members, &damper);
        let sparing = corner.members.strut_side(linkage).and_then(|_| side_free_spring(linkage, state, &wrench));
        let along = linkage.spring.foot(&state.position.pose) - linkage.spring.top;
        let tilt = |line: Vec3| line.cross(&along).norm().atan2(line.dot(&along)).to_degrees();
        Some(Loaded {
            moment: SteeringMoment::of(&load, state),
            sparing_tilt: sparing.map(|(line, _)| tilt(line)),
            load,
            corner,
            rod,
        })
    }
}

/// One member over all cases, N, tension positive, a pushing spring negative; a strut's side force as its size.
pub struct MemberRow {
    /// What people call it.
    pub name: &'static str,
    /// Under the load shown.
    pub now: Option<f64>,
    /// Under each of [`LoadCase::all`].
    pub cases: Vec<f64>,
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
    /// An arm, with so many N·mm under each of [`LoadCase::all`].
    By(Vec<f64>),
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
        let used = |(at, force): (usize, &f64)| match &self.bent {
            Bent::No => strength.used(*force, 0.0),
            Bent::By(moments) => strength.used(*force, *moments.get(at)?),
            Bent::Frame => None,
        };
        let used: Option<Vec<f64>> = self.cases.iter().enumerate().map(used).collect();
        Some(1.0 / used?.into_iter().fold(0.0, f64::max)).filter(|reserve| reserve.is_finite())
    }

    fn extreme(&self, sign: f64) -> Option<(f64, usize)> {
        let forces = self.cases.iter().enumerate().map(|(at, force)| (sign * force, at));
        forces.max_by(|a, b| a.0.total_cmp(&b.0)).filter(|(force, _)| *force > 0.0)
    }
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
    let (linkage, state) = (&solved.linkage, &solved.now);
    let (setting, statics) = (Setting::new(&solved.layout, &solved.rest), Statics::at(state));
    let under = |load: &Load| Corner::under(linkage, state, &statics, &load.wrench(state));
    let corners: Option<Vec<_>> = LoadCase::all().iter().map(|case| under(&(case.load)(&setting))).collect();
    let Some(corners) = corners else { return Vec::new() };
    let cases: Vec<_> = corners.iter().map(|corner| corner.members).collect();
    let now = load(solved, document).and_then(|load| under(&load)).map(|corner| corner.members);
    let mut rows = Vec::new();
    for (member, name) in NAMES {
        let length = linkage.rows.iter().find(|row| row.member == member).and_then(|row| match row.constraint {
            Constraint::Rod { length, .. } => Some(length),
            Constraint::Slide { .. } => None,
        });
        if length.is_some() {
            let moments = corners.iter().filter_map(|corner| corner.bent).filter(|(bent, _)| *bent == member);
            let moments: Vec<f64> = moments.map(|(_, moment)| moment).collect();
            rows.push(MemberRow {
                name,
                now: now.as_ref().and_then(|now| now.tension(linkage, member)),
                cases: cases.iter().filter_map(|forces| forces.tension(linkage, member)).collect(),
                length,
                bent: match (linkage.spring_on, member) {
                    (SpringOn::Lower, Member::LowerFront | Member::LowerRear)
                    | (SpringOn::Upper, Member::UpperFront | Member::UpperRear) => Bent::Frame,
                    _ if moments.is_empty() => Bent::No,
                    _ => Bent::By(moments),
                },
            });
        }
    }
    let spring = cases.iter().map(|forces| -forces.spring).collect();
    rows.push(MemberRow {
        name: "spring",
        now: now.map(|now| -now.spring),
        cases: spring,
        length: None,
        bent: Bent::No,
    });
    let sides: Option<Vec<f64>> = cases.iter().map(|forces| forces.strut_side(linkage)).collect();
    if let Some(cases) = sides {
        let now = now.and_then(|now| now.strut_side(linkage));
        rows.push(MemberRow { name: "strut, size of side force", now, cases, length: None, bent: Bent::No });
    }
    rows
}

/// Side force of the strut (N) over travel (mm) under the load shown, at the present rack.
pub fn side_over_travel(solved: &Solved, document: &Document) -> Vec<(f64, f64)> {
    let Some(load) = load(solved, document) else { return Vec::new() };
    let side = |state: &State| Statics::at(state).members(&load.wrench(state))?.strut_side(&solved.linkage);
    solved.over_travel.points.iter().filter_map(|(travel, state)| Some((*travel, side(state)?))).collect()
}

/// The moment about the steering axis (N·mm) of the same case of the same vehicle on another axle, at the same travel and rack; `None` where that axle
/// has none or can't get there.
pub fn moment_on(other: &Layout, solved: &Solved, document: &Document) -> Option<f64> {
    let linkage = Linkage::new(other).ok()?;
    let at = |travel, rack| {
        let rest = Position { pose: linkage.rest(), rack: 0.0 };
        State::solve(&linkage, Demand::new(travel, rack), &rest).ok()
    };
    let (rest, now) = (at(document.ride, 0.0)?, at(document.travel, document.rack)?);
    let setting = Setting { vehicle: solved.layout.vehicle(), ..Setting::new(other, &rest) };
    SteeringMoment::of(&chosen(&document.loads, &setting)?, &now).map(|moment| moment.total())
}
