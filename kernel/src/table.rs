//! The table: one row a state, as text. The command line and the page print the same one.

use crate::frame::Vec3;
use crate::linkage::{Linkage, Member};
use crate::loads::MemberForces;
use crate::pose::{Demand, Height, Steering};
use crate::reading::READINGS;
use crate::state::State;

/// The columns of member forces, N; a wishbone's two legs are its front and rear rods.
const FORCES: [(Member, &str); 5] = [
    (Member::LowerFront, "force_lower_front_n"),
    (Member::LowerRear, "force_lower_rear_n"),
    (Member::UpperFront, "force_upper_front_n"),
    (Member::UpperRear, "force_upper_rear_n"),
    (Member::TrackRod, "force_track_rod_n"),
];

/// The header: every reading and, with `forces`, every member force; a strut adds the side force at its top mount.
pub fn header(linkage: &Linkage, forces: bool) -> String {
    let mut columns: Vec<&str> = READINGS.iter().map(|reading| reading.column).collect();
    if forces {
        columns.extend(FORCES.map(|(_, column)| column));
        columns.push("force_spring_n");
        if linkage.rows.iter().any(|row| row.member == Member::Strut) {
            columns.push("force_strut_side_n");
        }
    }
    columns.join(",")
}

/// One row, full precision, empty where the axle does not have a value. `force` (N) acts at the contact point along
/// (e_x', e_y', e_z). Travel and rack are printed as demanded: the solver met them to the last digits. The error is a
/// sentence: a position where the members don't hold the wheel.
pub fn row(linkage: &Linkage, demand: &Demand, state: &State, force: Option<Vec3>) -> Result<String, String> {
    let mut values: Vec<Option<f64>> = READINGS.iter().map(|reading| (reading.value)(state)).collect();
    if let Height::Travel(travel) = demand.height {
        values[0] = Some(travel);
    }
    if let Steering::Rack(rack) = demand.steering {
        values[1] = Some(rack);
    }
    if let Some(force) = force {
        let forces = MemberForces::under_road_force(state, force)
            .ok_or_else(|| format!("At {demand} the members don’t hold the wheel: the position is singular."))?;
        values.extend(FORCES.map(|(member, _)| forces.tension(linkage, member)));
        values.push(Some(forces.spring));
        values.extend(forces.strut_side(linkage).map(Some));
    }
    // Adding 0 turns −0 into 0.
    let cells = values.iter().map(|value| value.map_or(String::new(), |value| (value + 0.0).to_string()));
    Ok(cells.collect::<Vec<_>>().join(","))
}
