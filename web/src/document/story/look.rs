//! How a shot is seen: what moves, from where it is looked at, what is emphasised.

use kernel::{Guide, Layout, Member, Reading};

/// What moves while a shot is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Moves {
    /// Nothing.
    #[default]
    Nothing,
    /// The wheel, through bump and droop.
    Bump,
    /// The rack, from lock to lock.
    Steer,
    /// The joint that is pointed at, as far as the shot says, and back.
    Drag,
    /// The axle of the shot before becomes this one: slowly, not only on the way to the shot. A wishbone that is split there parts before one's eyes.
    Change,
}

impl Moves {
    /// Every choice with its name in links and on the page.
    pub const ALL: [(Moves, &'static str, &'static str); 5] = [
        (Moves::Nothing, "nothing", "Still"),
        (Moves::Bump, "bump", "Bump sweep"),
        (Moves::Steer, "steer", "Lock to lock"),
        (Moves::Drag, "drag", "Selected joint dragged"),
        (Moves::Change, "change", "Change from the slide before"),
    ];
}

/// From where a shot is seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Seen {
    /// From three sides.
    #[default]
    All,
    /// From ahead.
    Front,
    /// From the left.
    Side,
    /// From above.
    Plan,
    /// In space.
    Pictorial,
}

impl Seen {
    /// Every choice with its name in links and on the page.
    pub const ALL: [(Seen, &'static str, &'static str); 5] = [
        (Seen::All, "all", "Three views"),
        (Seen::Front, "front", "Front view"),
        (Seen::Side, "side", "Side view"),
        (Seen::Plan, "plan", "Plan view"),
        (Seen::Pictorial, "space", "Pictorial view"),
    ];
}

/// What a shot emphasises: all else is drawn fainter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stress {
    /// The joint that is pointed at.
    Joint,
    /// The steering axis.
    Axis,
    /// A rod, a wishbone's leg or the strut.
    Member(Member),
    /// How near the wheel comes to what is in its way.
    Room,
    /// One of the pinned readings; of the drawing nothing is fainter then.
    Reading(&'static str),
}

/// What a link and the page call what can be emphasised beside members and readings.
const STRESSED: [(Stress, &str, &str); 3] = [
    (Stress::Joint, "joint", "the selected joint"),
    (Stress::Axis, "axis", "the steering axis"),
    (Stress::Room, "room", "the smallest gap"),
];

impl Stress {
    /// What can be emphasised of an axle with these readings pinned.
    pub fn choices(layout: &Layout, pinned: &[&'static str]) -> Vec<Stress> {
        let strut = matches!(layout.upper, Guide::Strut { .. });
        let gone = |member: &Member| strut && matches!(member, Member::UpperFront | Member::UpperRear);
        let rods = Member::RODS.into_iter().filter(|member| !gone(member));
        let members = rods.chain(strut.then_some(Member::Strut)).map(Stress::Member);
        let readings = pinned.iter().map(|column| Stress::Reading(column));
        STRESSED.map(|(stress, ..)| stress).into_iter().chain(members).chain(readings).collect()
    }

    /// What a link calls it.
    pub fn key(self) -> &'static str {
        match self {
            Stress::Member(Member::Strut) => "strut",
            Stress::Member(member) => member.path(),
            Stress::Reading(column) => Reading::named(column).map_or("", Reading::short),
            other => STRESSED.iter().find(|(stress, ..)| *stress == other).map_or("", |(_, key, _)| key),
        }
    }

    /// What a link calls so.
    pub fn keyed(key: &str) -> Option<Stress> {
        let plain = STRESSED.iter().find(|(_, known, _)| *known == key).map(|(stress, ..)| *stress);
        let member = || {
            let mut members = Member::RODS.into_iter().chain([Member::Strut]).map(Stress::Member);
            members.find(|stress| stress.key() == key)
        };
        plain.or_else(member).or_else(|| Some(Stress::Reading(Reading::named(key)?.column)))
    }

    /// What the page calls it.
    pub fn name(self, layout: &Layout) -> String {
        match self {
            Stress::Member(member) => member.name(layout).into(),
            Stress::Reading(column) => Reading::named(column).map_or(String::new(), Reading::full_name),
            other => {
                STRESSED.iter().find(|(stress, ..)| *stress == other).map_or(String::new(), |(.., name)| (*name).into())
            }
        }
    }
}
