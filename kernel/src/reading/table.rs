//! The table: one row a state, as text. The command line and the page print the same one.

use super::{READINGS, Reading, Snapshot, Subject};
use crate::compliance::{UNDER_LOAD, UnderLoad};
use crate::layout::Member;
use crate::linkage::Linkage;
use crate::loads::{Load, Statics, SteeringMoment};
use crate::pose::{Demand, Height, Steering};
use std::ops::Range;

/// The columns of member forces, N; a wishbone's two legs are its front and rear rods.
const FORCES: [(Member, &str); 5] = [
    (Member::LowerFront, "force_lower_front_n"),
    (Member::LowerRear, "force_lower_rear_n"),
    (Member::UpperFront, "force_upper_front_n"),
    (Member::UpperRear, "force_upper_rear_n"),
    (Member::TrackRod, "force_track_rod_n"),
];

/// The readings before the forces, those between forces and what rack and steering axis feel, and those behind: a table's columns keep their
/// places when the readings grow.
const FIRST: Range<usize> = 0..25;
const SECOND: Range<usize> = 25..28;
const LAST: Range<usize> = 28..READINGS.len();

/// What a table has columns for.
#[derive(Clone, Copy)]
pub struct Table<'a> {
    /// The left wheel's equations.
    pub linkage: &'a Linkage,
    /// What the forces answer to; `None`: there are no columns of forces.
    pub load: Option<&'a Load>,
    /// Of what there are readings in it.
    pub of: &'a [Subject],
}

impl Table<'_> {
    /// The readings of a part of the list that have a column.
    fn columns(&self, part: Range<usize>) -> impl Iterator<Item = &'static Reading> + Clone {
        READINGS[part].iter().filter(|reading| self.of.contains(&reading.subject()))
    }

    /// The header. With a load: every member force and a strut's side force at its top mount; what rack and steering axis feel (positive to
    /// the left).
    pub fn header(&self) -> String {
        let names = |part| self.columns(part).map(|reading| reading.column);
        let mut header: Vec<&str> = names(FIRST).collect();
        if self.load.is_some() {
            header.extend(FORCES.map(|(_, column)| column));
            header.push("force_spring_n");
            if self.linkage.rows.iter().any(|row| row.member == Member::Strut) {
                header.push("force_strut_side_n");
            }
        }
        header.extend(names(SECOND));
        if self.load.is_some() {
            header.extend(["rack_force_n", "steering_moment_n_mm"]);
        }
        header.extend(names(LAST));
        header.join(",")
    }

    /// One row, full precision, empty where the axle does not have a value. Travel and rack are printed as demanded: the solver met them to the
    /// last digits. The error is a sentence: a position where the members don't hold the wheel.
    pub fn row(&self, demand: &Demand, snapshot: &Snapshot) -> Result<String, String> {
        let read = |part| self.columns(part).map(|reading| printed(reading, demand, snapshot));
        let mut values: Vec<Option<f64>> = read(FIRST).collect();
        if let Some(load) = self.load {
            let forces = Statics::at(snapshot.wheel)
                .members(&load.wrench(snapshot.wheel))
                .ok_or_else(|| format!("At {demand} the links do not locate the wheel: the position is singular."))?;
            values.extend(FORCES.map(|(member, _)| forces.tension(self.linkage, member)));
            values.push(Some(forces.spring));
            values.extend(forces.strut_side(self.linkage).map(Some));
        }
        values.extend(read(SECOND));
        if let Some(load) = self.load {
            let felt = SteeringMoment::of(load, snapshot.wheel);
            values.extend([felt.map(|moment| moment.rack_force), felt.map(|moment| moment.total())]);
        }
        values.extend(read(LAST));
        Ok(line(&values))
    }
}

/// The columns of what gives way under the load, which stand last.
pub fn under_load_header() -> String {
    UNDER_LOAD.map(|column| column.column).join(",")
}

/// What belongs under them: empty where nothing gives way.
pub fn under_load_row(under_load: Option<&UnderLoad>) -> String {
    line(&UNDER_LOAD.map(|column| under_load.and_then(column.value)))
}

/// Cells of a row, empty for what there is none of.
fn line(values: &[Option<f64>]) -> String {
    // Adding 0 turns −0 into 0.
    let cells = values.iter().map(|value| value.map_or(String::new(), |value| (value + 0.0).to_string()));
    cells.collect::<Vec<_>>().join(",")
}

/// What is printed of a reading.
fn printed(reading: &Reading, demand: &Demand, snapshot: &Snapshot) -> Option<f64> {
    match (reading.column, demand.height, demand.steering) {
        ("travel_mm", Height::Travel(travel), _) => Some(travel),
        ("rack_mm", _, Steering::Rack(rack)) => Some(rack),
        _ => (reading.value)(snapshot),
    }
}
