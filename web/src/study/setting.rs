//! The workshop: how long members are, which part sets a reading of a wheel where the car stands, how far, and what else that moves.

use kernel::{Adjusted, Adjuster, Axle, Change, Constraint, Layout, LeftOrRight, Linkage, Member, PointId};
use kernel::{Changes, Reading, SetUp, Sides, Snapshot};

/// What can be set, by the columns of the readings.
pub const SETTABLE: [&str; 4] = ["toe_deg", "camber_deg", "caster_deg", "bump_steer_deg_per_mm"];

/// What setting one of them may move beside it.
const EFFECTS: [&str; 5] = ["toe_deg", "camber_deg", "caster_deg", "kingpin_inclination_deg", "bump_steer_deg_per_mm"];

/// Toe that is this near to the design's, degrees, is the design's: a twentieth of what a gauge shows.
const SAME_TOE: f64 = 1e-3;

/// Something that can be set, with its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Tool {
    /// What people call it on this axle.
    pub name: String,
    /// What it does.
    pub adjuster: Adjuster,
    /// A member's length in the design, mm.
    pub length: Option<f64>,
}

impl Tool {
    fn of(layout: &Layout, adjuster: Adjuster) -> Tool {
        let name = match &adjuster.set {
            Adjusted::Change(change) => change.label(layout),
            Adjusted::Along(id, _) => format!("{}, along its slot or shims", id.name()),
        };
        Tool { name, adjuster, length: None }
    }

    /// A member's length as it is built on either wheel, mm.
    pub fn built(&self, layout: &Layout) -> Option<[f64; 2]> {
        let (Adjusted::Change(change), Some(length)) = (&self.adjuster.set, self.length) else { return None };
        Some(LeftOrRight::BOTH.map(|side| length + layout.changes.of(side).get(change).unwrap_or(&0.0)))
    }
}

/// Every member that has a length of its own, then what the layout says can be adjusted.
pub fn tools(layout: &Layout) -> Vec<Tool> {
    let mut tools = Vec::new();
    if let Ok(design) = Linkage::new(layout) {
        for row in design.rows() {
            if let Constraint::Rod { length, .. } = row.constraint {
                let adjuster = Adjuster::of(Change::Length(row.member));
                tools.push(Tool { name: row.member.name(layout).into(), adjuster, length: Some(length) });
            }
        }
    }
    tools.extend(own(layout));
    tools
}

fn own(layout: &Layout) -> impl Iterator<Item = Tool> + '_ {
    layout.changes.adjusters.iter().map(|adjuster| Tool::of(layout, adjuster.clone()))
}

/// What a reading can be set by: the layout's own adjusters, then what a workshop would think of.
pub fn tools_for(layout: &Layout, column: &str) -> Vec<Tool> {
    use Change::{CarrierCamber, Joint, Length};
    use PointId::{LowerFrontOuter, LowerOuter, LowerRearOuter, StrutTop, TrackRodInner, TrackRodOuter};
    let steering = |change: &Change| *change == Length(Member::TrackRod);
    let arm = |change: &Change| matches!(change, Length(_)) && !steering(change);
    let fits = |change: &Change| match column {
        "toe_deg" => steering(change),
        "camber_deg" => arm(change) || matches!(change, Joint(StrutTop, 1) | CarrierCamber),
        "caster_deg" => arm(change) || matches!(change, Joint(StrutTop, 0)),
        _ => matches!(change, Joint(TrackRodInner | TrackRodOuter | LowerOuter | LowerFrontOuter | LowerRearOuter, 2)),
    };
    let usual = Change::all(layout).into_iter().filter(fits).map(|change| Tool::of(layout, Adjuster::of(change)));
    own(layout).chain(usual).collect()
}

/// What somebody wants of a wheel where the car stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Wish {
    /// The sides that are changed; of both alike the left wheel is read.
    pub sides: Sides,
    /// The column of the reading.
    pub column: &'static str,
    /// What it is to be, in the reading's unit.
    pub wanted: f64,
    /// By what.
    pub by: Adjuster,
}

/// How a wish would be met.
pub struct Proposal {
    /// How far, what is left over, and the changes then.
    pub set: SetUp,
    /// Readings of the wheel before and after.
    pub effects: Vec<(&'static Reading, [Option<f64>; 2])>,
    /// The track before and after, mm.
    pub track: [f64; 2],
}

impl Wish {
    /// The wheel that is read.
    pub fn wheel(&self) -> LeftOrRight {
        if let Sides::One(side) = self.sides { side } else { LeftOrRight::Left }
    }

    /// How it would be met; `None` where the adjuster does not move the reading.
    pub fn proposal(&self, layout: &Layout) -> Option<Proposal> {
        let wheel = self.wheel();
        let read = |axle: &Axle| value(axle, wheel, self.column);
        let set = self.by.set_for(layout, self.sides, read, self.wanted)?;
        let before = Axle::new(layout).ok()?;
        let after = Axle::new(&Layout { changes: set.changes.clone(), ..layout.clone() }).ok()?;
        let both = [&before, &after];
        let effects = EFFECTS
            .iter()
            .filter_map(|column| Some((Reading::named(column)?, both.map(|axle| value(axle, wheel, column)))));
        Some(Proposal { effects: effects.collect(), track: both.map(|axle| 2.0 * axle.half_track()), set })
    }
}

/// A reading of a wheel where the car stands.
fn value(axle: &Axle, wheel: LeftOrRight, column: &str) -> Option<f64> {
    (Reading::named(column)?.value)(&Snapshot::either(axle, wheel, &axle.both_stand()[wheel.index()]))
}

/// A reading of the axle as it is built, of a wheel where the car stands.
pub fn standing(axle: &Axle, sides: Sides, column: &str) -> Option<f64> {
    value(axle, if let Sides::One(side) = sides { side } else { LeftOrRight::Left }, column)
}

/// The changes with track rods so long that each wheel's toe is the design's again where the car stands; `None` where they can't be.
pub fn toe_reset(layout: &Layout) -> Option<Changes> {
    let axle = Axle::new(layout).ok()?;
    let [left, right] = LeftOrRight::BOTH.map(Sides::One);
    let sides = if axle.sides_differ() { vec![left, right] } else { vec![Sides::Both] };
    let rod = Adjusted::Change(Change::Length(Member::TrackRod));
    let own = layout.changes.adjusters.iter().find(|adjuster| adjuster.set == rod).cloned();
    let rod = own.unwrap_or_else(|| Adjuster::of(Change::Length(Member::TrackRod)));
    let mut built = layout.clone();
    for of in sides {
        let set = rod.set_for(&built, of, |axle| standing(axle, of, "toe_deg"), layout.wheel.toe)?;
        if set.left_over.abs() > SAME_TOE {
            return None;
        }
        built.changes = set.changes;
    }
    Some(built.changes)
}
