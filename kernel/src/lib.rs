//! The geometry of a front axle: joint coordinates in, poses and readings out.
//!
//! A [`Layout`] is plain data. A [`Linkage`] is the equations it implies. [`solve`] turns a linkage, a [`Demand`] and a guess
//! into a [`Solved`] pose, or into a report that says why not. Everything else is a pure function of poses.
//!
//! ```
//! use kernel::{Demand, Layout, Linkage, Position, READINGS, Snapshot, State};
//!
//! let file = include_str!("../../demo-layouts/four-arm.json");
//! let layout = Layout::from_json(file)?;
//! let linkage = Linkage::new(&layout).map_err(|problems| problems[0].to_string())?;
//! let rest = Position { pose: linkage.rest(), rack: 0.0 };
//! let state = State::solve(&linkage, Demand::new(25.0, 12.0), &rest).map_err(|why| why.to_string())?;
//! assert!(state.attitude.camber < -1.0); // degrees; the top leans in
//! for reading in &READINGS {
//!     println!("{} = {:?}", reading.column, (reading.value)(&Snapshot::of(&state)));
//! }
//! # Ok::<(), String>(())
//! ```
//!
//! Axes, signs and units: [`frame`]. No input, no browser, no clock; every function returns for every input.

pub mod frame;
pub mod repair;
pub mod space;
pub mod tape;
pub mod vary;

mod axle;
mod both;
mod compliance;
mod layout;
mod linkage;
mod loads;
mod math;
mod pose;
mod reading;
mod remark;
mod ride;
mod state;
mod workshop;

pub use axle::{Axle, NoAxle, Swept, linkage_of};
pub use both::{
    AxleState, Place, RollCentre, Side, Stance, Turn, ideal_outer, lift, single_track_radius, steering_ratio,
    toe_out_on_turns,
};
pub use compliance::{
    Bushes, Column, Compliance, Deflection, Elastic, Held, UNDER_LOAD, UnderLoad, case_wrenches, force_wrenches,
};
pub use frame::{Rotation, Vec3};
pub use layout::{
    Adjusted, Adjuster, Amount, Anchor, AntiRollBar, Built, Bulk, Bush, Change, Changes, Damper, Drive, Few, Guide,
    HalfShaft, LIMIT, LONGEST_NAME, LONGEST_NOTE, Layout, LeftOrRight, Level, Member, Mount, Obstacle, Part, PointId,
    Problem, Rack, Rocker, Rod, RollFrom, Sides, Solid, Spring, SpringOn, Stops, Subframe, SubframeMount, TyreSize,
    Vehicle, Wheel, Yielding, clean, clean_lines, clip, field, validate,
};
pub use linkage::{Constraint, Follower, Linkage, RockerLine, RockerState, Row, SpringLine, TRACK_ROD};
pub use loads::{
    Bending, Corner, Hands, Joint, LateralTransfer, Load, LoadCase, Material, MemberForces, NoLoad, RodForces, SEAT,
    Section, Setting, Share, SideFreeSpring, Statics, SteeringMoment, Strength, Swing, Swinging, column_reduction,
    swing, turning_friction,
};
pub use math::{Factored, Line, Pose, Screw, Twist, Wrench, plane};
#[cfg(feature = "counted")]
#[doc(hidden)]
pub use pose::newton_runs;
pub use pose::{Demand, Guess, Height, Position, Reason, Solved, Steering, Unsolved, range, settled, solve, sweep};
pub use reading::{
    Gaps, Group, Known, READINGS, Reading, Snapshot, Subject, Table, Unit, Whole, under_load_header, under_load_row,
};
pub use remark::{Remark, remarks};
pub use ride::{
    BarState, RollStiffness, Springing, TurnedBush, Twisted, bushes_at_wheel, frequency, ratio_slope, support,
};
pub use state::{Attitude, Bump, NoAxis, ShaftState, State, SteeringAxis, SwingCentre};
pub use workshop::SetUp;
