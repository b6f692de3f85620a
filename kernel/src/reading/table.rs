//! The table: one row a state, as text. The command line and the page print the same one.

use super::{AXLE_READINGS, READINGS, Reading, Whole};
use crate::compliance::{Column, ELASTIC, Elastic, UNDER_LOAD, UnderLoad};
use crate::layout::Member;
use crate::linkage::Linkage;
use crate::loads::{Load, Statics, SteeringMoment};
use crate::pose::{Demand, Height, Steering};
use crate::state::State;

/// The columns of member forces, N; a wishbone's two legs are its front and rear rods.
const FORCES: [(Member, &str); 5] = [
    (Member::LowerFront, "force_lower_front_n"),
    (Member::LowerRear, "force_lower_rear_n"),
    (Member::UpperFront, "force_upper_front_n"),
    (Member::UpperRear, "force_upper_rear_n"),
    (Member::TrackRod, "force_track_rod_n"),
];

/// So many readings come first, then the forces: a table's columns keep their places when the readings grow.
const FIRST: usize = 25;

/// The header: the first readings; with `forces`, every member force and a strut's side force at its top mount; the later readings;
/// with `forces`, what rack and steering axis feel (positive to the left).
pub fn header(linkage: &Linkage, forces: bool) -> String {
    let columns = |readings: &[Reading]| readings.iter().map(|reading| reading.column).collect::<Vec<_>>();
    let mut header = columns(&READINGS[..FIRST]);
    if forces {
        header.extend(FORCES.map(|(_, column)| column));
        header.push("force_spring_n");
        if linkage.rows.iter().any(|row| row.member == Member::Strut) {
            header.push("force_strut_side_n");
        }
    }
    header.extend(columns(&READINGS[FIRST..]));
    if forces {
        header.extend(["rack_force_n", "steering_moment_n_mm"]);
    }
    header.join(",")
}

/// One row, full precision, empty where the axle does not have a value. `load` is what the forces answer to. Travel and rack are
/// printed as demanded: the solver met them to the last digits. The error is a sentence: a position where the members don't hold the
/// wheel.
pub fn row(linkage: &Linkage, demand: &Demand, state: &State, load: Option<&Load>) -> Result<String, String> {
    let read = |readings: &[Reading]| readings.iter().map(|reading| (reading.value)(state)).collect::<Vec<_>>();
    let mut values = read(&READINGS[..FIRST]);
    if let Height::Travel(travel) = demand.height {
        values[0] = Some(travel);
    }
    if let Steering::Rack(rack) = demand.steering {
        values[1] = Some(rack);
    }
    if let Some(load) = load {
        let forces = Statics::at(state)
            .members(&load.wrench(state))
            .ok_or_else(|| format!("At {demand} the links do not locate the wheel: the position is singular."))?;
        values.extend(FORCES.map(|(member, _)| forces.tension(linkage, member)));
        values.push(Some(forces.spring));
        values.extend(forces.strut_side(linkage).map(Some));
    }
    values.extend(read(&READINGS[FIRST..]));
    if let Some(load) = load {
        let felt = SteeringMoment::of(load, state);
        values.extend([felt.map(|moment| moment.rack_force), felt.map(|moment| moment.total())]);
    }
    Ok(line(&values))
}

/// The columns of the whole axle, which stand behind a wheel's.
pub fn axle_header() -> String {
    AXLE_READINGS.iter().map(|reading| reading.column).collect::<Vec<_>>().join(",")
}

/// What belongs under them.
pub fn axle_row(whole: &Whole) -> String {
    line(&AXLE_READINGS.each_ref().map(|reading| (reading.value)(whole)))
}

/// The columns of what gives way, which stand last; with `loaded` those of what gives way under the load, too.
pub fn elastic_header(loaded: bool) -> String {
    let under_load = UNDER_LOAD.iter().map(|column| column.column).filter(|_| loaded);
    ELASTIC.iter().map(|column| column.column).chain(under_load).collect::<Vec<_>>().join(",")
}

/// What belongs under them: empty where nothing gives way.
pub fn elastic_row(elastic: Option<&Elastic>, loaded: bool, under_load: Option<&UnderLoad>) -> String {
    let mut values = cells(&ELASTIC, elastic);
    if loaded {
        values.extend(cells(&UNDER_LOAD, under_load));
    }
    line(&values)
}

fn cells<S>(columns: &[Column<S>], of: Option<&S>) -> Vec<Option<f64>> {
    columns.iter().map(|column| of.and_then(column.value)).collect()
}

/// Cells of a row, empty for what there is none of.
fn line(values: &[Option<f64>]) -> String {
    // Adding 0 turns −0 into 0.
    let cells = values.iter().map(|value| value.map_or(String::new(), |value| (value + 0.0).to_string()));
    cells.collect::<Vec<_>>().join(",")
}
