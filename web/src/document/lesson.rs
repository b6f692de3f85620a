//! A lesson: a task on a prepared axle, what may be moved, what is hidden, what is to be reached or answered; and a student's answer.
//! Nothing here is secret: the link carries it all.

pub use super::goal::Freed;
use super::place::Place;
use crate::text::number::Units;
use crate::text::typed::Kind;
use kernel::{Layout, PointId, Reading, Unit};

/// Prepared by a teacher.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lesson {
    /// What is to be done.
    pub task: String,
    /// A hint, shown when asked for.
    pub hint: String,
    /// Readings hidden until an answer is checked.
    pub hidden: Vec<&'static str>,
    /// What may be moved, and how far from where it begins; if empty, everything that is not locked.
    pub free: Vec<Freed>,
    /// Readings to be reached.
    pub aims: Vec<Aim>,
    /// The number asked for.
    pub number: Option<Number>,
    /// What is to be predicted, as a number, before anything is shown.
    pub predict: Option<Prediction>,
    /// Words are asked for: they are not checked here.
    pub words: bool,
    /// Each student's start has what is free elsewhere by up to so much, mm; 0 for the same start for all.
    pub vary: f64,
    /// Marks the layout it begins with; 0 while it is being prepared.
    pub begin: u32,
}

/// A reading to be reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aim {
    /// Its column.
    pub column: &'static str,
    /// The value, in the reading's own unit.
    pub value: f64,
    /// How far off it may be.
    pub tolerance: f64,
    /// Where it is judged, whatever is shown.
    pub place: Place,
}

/// A number asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Number {
    /// The number, in the kernel's unit.
    pub value: f64,
    /// How far off an answer may be.
    pub tolerance: f64,
    /// What it is a number of; a plain one is [`Unit::One`].
    pub unit: Unit,
}

impl Number {
    /// How many of what people type one of the kernel's unit is.
    fn factor(&self) -> f64 {
        // The trade quotes 10 mm.
        if self.unit == Unit::DegreePerMillimetre { 10.0 } else { 1.0 }
    }

    /// A value in the kernel's unit as people type it.
    pub fn shown(&self, value: f64) -> f64 {
        value * self.factor()
    }

    /// A typed value in the kernel's unit.
    pub fn kernel(&self, typed: f64) -> f64 {
        typed / self.factor()
    }
}

/// A reading whose change is to be predicted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prediction {
    /// Its column.
    pub column: &'static str,
    /// Its value where the student begins, in the reading's own unit.
    pub before: f64,
    /// Where the student begins.
    pub place: Place,
}

/// What a student has answered.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answer {
    /// Whose it is.
    pub by: String,
    /// The number, or the prediction, as it was typed and in the unit it was typed in; empty if there is none.
    pub guess: String,
    /// The words.
    pub words: String,
    /// The answer has been checked.
    pub checked: bool,
    /// What stood in the number's box when it was first checked and what is hidden was shown: that stays. `None` before.
    pub first: Option<String>,
    /// The hint has been asked for.
    pub hinted: bool,
    /// Whose start it is, where starts vary: a number in class, or a name; empty before that has been said.
    pub variant: String,
}

/// Starts vary by no more, mm: more is another axle.
pub const MOST_VARIED: f64 = 100.0;

/// So far either way of a coordinate, to the hundredth of a mm that a link carries.
pub fn around(at: f64, reach: f64) -> [f64; 2] {
    [at - reach, at + reach].map(|mm| (mm * 100.0).round() / 100.0)
}

/// Readings that are one number or nearly: whoever sees the one knows the other.
const RELATIVES: [&[&str]; 12] = [
    &["toe_deg", "steer_deg", "steer_left_deg", "steer_right_deg", "total_toe_deg"],
    &["camber_deg", "camber_road_left_deg", "camber_road_right_deg"],
    &["kingpin_offset_wheel_centre_mm", "drive_lever_arm_mm"],
    &["scrub_radius_mm", "brake_lever_arm_mm"],
    &["caster_offset_ground_mm", "side_lever_arm_mm"],
    &["roll_centre_height_mm", "axle_roll_centre_height_mm"],
    &["caster_deg", "caster_sweep_deg"],
    // An included angle less camber is the inclination, and the other way round.
    &["kingpin_inclination_deg", "kingpin_inclination_sweep_deg", "included_angle_sweep_deg"],
    &["camber_deg", "included_angle_sweep_deg"],
    &["toe_side_force_deg_per_kn", "axle_steer_side_force_deg_per_kn", "side_force_no_steer_point_mm"],
    &["toe_aligning_moment_deg_per_100_nm", "side_force_no_steer_point_mm"],
    &["wheel_gap_mm", "least_gap_mm"],
];

/// A mark of a layout: 32 bits of FNV-1a over its joints as a link has them.
pub fn mark(layout: &Layout) -> u32 {
    let text: String = layout.points().map(|(id, p)| format!("{}{:.2}{:.2}{:.2}", id.code(), p.x, p.y, p.z)).collect();
    let hash = text.bytes().fold(0x811C_9DC5_u32, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193));
    hash.max(1)
}

impl Lesson {
    /// True for a student: the lesson came by a link.
    pub fn sealed(&self) -> bool {
        self.begin != 0
    }

    /// The range a coordinate may take; `None` where it must not be moved.
    pub fn range(&self, point: PointId, axis: usize) -> Option<[f64; 2]> {
        if self.free.is_empty() {
            return Some([-kernel::LIMIT, kernel::LIMIT]);
        }
        self.free.iter().find(|free| free.point == point && free.axis == axis).map(|free| free.range)
    }

    /// True while a reading is hidden: itself, or one that tells it.
    pub fn hides(&self, answer: &Answer, column: &str) -> bool {
        let tells = |hidden: &str| {
            hidden == column || RELATIVES.iter().any(|kin| kin.contains(&hidden) && kin.contains(&column))
        };
        self.sealed() && answer.first.is_none() && self.hidden.iter().any(|hidden| tells(hidden))
    }

    /// What kind of number is asked for, if one is.
    pub fn asks(&self) -> Option<Kind> {
        let predicted = self.predict.and_then(|prediction| Reading::named(prediction.column));
        let toe = |reading: &Reading| Kind { unit: reading.unit, toe: reading.column == "toe_deg" };
        predicted.map(toe).or(self.number.map(|number| Kind::of(number.unit)))
    }

    /// What the number's box is labelled with.
    pub fn label(&self, units: Units) -> String {
        let name = self.asks().map_or("", |kind| kind.name(units));
        let unit = if name.is_empty() { String::new() } else { format!(" ({name})") };
        match self.predict.and_then(|prediction| Reading::named(prediction.column)) {
            Some(reading) => format!("Your prediction: change of {}{unit}", reading.full_name().to_ascii_lowercase()),
            None => format!("Your answer{unit}"),
        }
    }

    /// The task as a title: its first line, cut to what a row of a list can carry.
    pub fn title(&self) -> String {
        const LONGEST: usize = 70;
        let line = self.task.lines().find(|line| !line.trim().is_empty()).unwrap_or("lesson without a task").trim();
        let short: String = line.chars().take(LONGEST).collect();
        if short.len() < line.len() { format!("{} …", short.trim_end()) } else { short }
    }

    /// True for the same lesson, sealed or in preparation, whatever it begins with.
    pub fn same(&self, other: &Lesson) -> bool {
        let column = |lesson: &Lesson| lesson.predict.map(|prediction| prediction.column);
        column(self) == column(other) && Lesson { begin: other.begin, predict: other.predict, ..self.clone() } == *other
    }

    /// Frees a coordinate of a point within so much of where it is, mm, or keeps it from then on.
    pub fn turn_free(&mut self, point: PointId, axis: usize, at: f64, reach: f64) {
        let before = self.free.len();
        self.free.retain(|free| (free.point, free.axis) != (point, axis));
        if self.free.len() == before {
            self.free.push(Freed { point, axis, range: around(at, reach) });
            let order = |free: &Freed| (self.free_order(free.point), free.axis);
            let mut sorted = self.free.clone();
            sorted.sort_by_key(order);
            self.free = sorted;
        }
    }

    /// Coordinates of one point stand together, in the order in which points were freed.
    fn free_order(&self, point: PointId) -> usize {
        self.free.iter().position(|free| free.point == point).unwrap_or_default()
    }

    /// What may be moved, in words; empty where everything may be.
    pub fn movable(&self) -> String {
        let mut points: Vec<PointId> = self.free.iter().map(|free| free.point).collect();
        points.dedup();
        let axes = |point: &PointId| {
            let of = self.free.iter().filter(|free| free.point == *point);
            let axes: Vec<&str> = of.map(|free| ["x", "y", "z"][free.axis.min(2)]).collect();
            format!("{} ({})", point.name(), axes.join(", "))
        };
        points.iter().map(axes).collect::<Vec<_>>().join("; ")
    }
}
