//! The alignment sheet against the axle: what this axle reads where it stands, what of the sheet is to be explained, and what the trade's table says.

use crate::document::alignment::{Alignment, Cell, Row};
use kernel::repair::{Found, Value};
use kernel::vary::{Outcome, Quantity};
use kernel::{Axle, Change, Layout, LeftOrRight, Member, Swept};

/// What the axle reads of a row on the left and on the right, where it stands; the height as travel.
pub fn computed(axle: &Axle, row: Row) -> [Option<f64>; 2] {
    LeftOrRight::BOTH.map(|side| {
        let stands = &axle.both_stand()[side.index()];
        match row {
            Row::Toe => Some(-stands.attitude.steer),
            Row::Camber => Some(stands.attitude.camber),
            Row::Caster => swept(axle, side).map(|swept| swept.caster),
            Row::Inclination => swept(axle, side).map(|swept| swept.inclination),
            Row::Included => swept(axle, side).map(|swept| swept.inclination + stands.attitude.camber),
            Row::Height => Some(axle.standing_travel()),
        }
    })
}

/// What a rig finds where the axle stands.
fn swept(axle: &Axle, side: LeftOrRight) -> Option<Swept> {
    axle.swept(side, axle.standing_travel(), Swept::ANGLE)
}

/// What of a sheet is to be explained.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Question {
    /// The values after work, not those before it.
    pub after: bool,
    /// The left wheel against the right one, for want of the design's numbers.
    pub against: bool,
    /// Somebody may have set toe since the fault.
    pub toe_set: bool,
}

/// The readings of a printout that can be explained, by their columns.
const EXPLAINED: [(Row, &str); 4] = [
    (Row::Toe, "toe_deg"),
    (Row::Camber, "camber_deg"),
    (Row::Caster, "caster_sweep_deg"),
    (Row::Inclination, "kingpin_inclination_sweep_deg"),
];

impl Question {
    /// The cell of a wheel's value.
    pub fn cell(self, side: LeftOrRight) -> Cell {
        if self.after { Cell::After(side) } else { Cell::Before(side) }
    }

    /// A wheel's value with its error. Inclination without a value of its own is included angle less camber, whose errors then add as squares; where
    /// both are there, the rig has computed one from the other, and it counts once.
    pub fn value(self, sheet: &Alignment, row: Row, side: LeftOrRight) -> Option<(f64, f64)> {
        let typed = |row| Some((sheet.cell(row, self.cell(side))?, sheet.error(row)));
        let by_sum = || {
            let ((included, error), (camber, other)) = (typed(Row::Included)?, typed(Row::Camber)?);
            Some((included - camber, error.hypot(other)))
        };
        typed(row).or_else(|| by_sum().filter(|_| row == Row::Inclination))
    }

    /// The travel at which a wheel was measured, mm: where the car stands, unless its height is typed.
    fn travel(self, sheet: &Alignment, layout: &Layout, side: LeftOrRight) -> f64 {
        let typed = sheet.cell(Row::Height, self.cell(side)).and_then(|height| sheet.travel(height));
        typed.unwrap_or(layout.changes.ride())
    }

    /// What the kernel is to explain; `None` where nothing is typed.
    ///
    /// Against the right wheel: this car's design reads b more than the layout does, unknown but the same on both sides. The right wheel reads
    /// `r(h_R) + b` with the error σ_R, the left one `l(h_L) + b` with σ_L; b's best value taken for each l leaves
    /// ```text
    /// min over b of ((l + b − m_L)/σ_L)² + ((r + b − m_R)/σ_R)² = ((l − r) − (m_L − m_R))²/(σ_L² + σ_R²)
    /// ```
    /// so the difference counts with both errors, and b is out of it. Each wheel keeps its own height and that height's error.
    pub fn found(self, sheet: &Alignment, layout: &Layout, steered: bool) -> Option<Found> {
        let rows = EXPLAINED.into_iter().filter(|(row, _)| steered || matches!(row, Row::Toe | Row::Camber));
        let at = |quantity, side| Outcome { quantity, side, travel: self.travel(sheet, layout, side), rack: 0.0 };
        let [left, right] = LeftOrRight::BOTH;
        let mut values = Vec::new();
        for (row, column) in rows {
            let quantity = Quantity::named(column)?;
            let [l, r] = LeftOrRight::BOTH.map(|side| self.value(sheet, row, side));
            if self.against {
                if let (Some((l, a)), Some((r, b))) = (l, r) {
                    let less = Some(at(quantity, right));
                    values.push(Value { outcome: at(quantity, left), less, value: l - r, error: a.hypot(b) });
                }
            } else {
                for (side, (value, error)) in [(left, l), (right, r)].into_iter().filter_map(|(s, v)| Some((s, v?))) {
                    values.push(Value { outcome: at(quantity, side), less: None, value, error });
                }
            }
        }
        let mut found = Found { values, adjusted: Vec::new(), height_error: sheet.error(Row::Height) };
        // Without a toe value a track rod set anyhow would explain whatever else is found.
        let has_toe = |side| {
            found
                .values
                .iter()
                .any(|value| value.outcome.quantity.column() == "toe_deg" && value.places().any(|at| at.side == side))
        };
        if self.toe_set && found.sides().all(has_toe) {
            found.adjusted = vec![Change::Length(Member::TrackRod)];
        }
        (!found.values.is_empty()).then_some(found)
    }
}

/// Values beyond the unknowns, one cause among them: what a fit has to spare. Every height that is unknown brings its own error as a value. Left
/// against right, both track rods are one unknown.
pub fn spare(found: &Found) -> i32 {
    let against = found.values.iter().any(|value| value.less.is_some());
    let sides = if against { 1 } else { found.sides().count() };
    let unknowns = 1 + found.adjusted.len() * sides;
    found.values.len() as i32 - unknowns as i32
}

/// What the trade's table (common practice) says of a wheel: of a strut or of two wishbones, by how inclination and camber differ from what they
/// should be, each over its error. `None` where it says nothing.
pub fn diagnosis(layout: &Layout, inclination: f64, camber: f64) -> Option<&'static str> {
    use kernel::Guide::{Strut, Wishbone};
    let strut = match (&layout.upper, &layout.lower) {
        (Strut { .. }, Wishbone { .. }) => true,
        (Wishbone { .. }, Wishbone { .. }) => false,
        _ => return None,
    };
    let sign = |over: f64| if over.abs() < DIFFERS { 0 } else { over.signum() as i32 };
    Some(match (sign(inclination), sign(camber), strut) {
        (0, 0, _) => return None,
        (0, _, true) => "inclination as it should be, camber and included angle not: a bent carrier or strut",
        (0, _, false) => "inclination as it should be, camber and included angle not: a bent carrier",
        (-1, 1, true) => "inclination less, camber more: the top mount too far out, or the lower arm too short",
        (-1, 1, false) => "inclination less, camber more: the lower wishbone too short, or the upper one too long",
        (1, -1, true) => "inclination more, camber less: the top mount too far in, or the lower arm too long",
        (1, -1, false) => "inclination more, camber less: the upper wishbone too short, or the lower one too long",
        _ => "inclination and camber are both off, not by as much the other way round: more than one part",
    })
}

/// What differs by this many errors differs.
const DIFFERS: f64 = 2.0;
