//! The kernel: against sources and witnesses nobody here made, laws over random axles, and bad input.

mod axle;
mod changes;
mod compliance;
mod compliance_witness;
mod edges;
mod every_demo;
mod hostile;
mod kinds;
mod laws;
mod loads;
mod published;
mod readings;
mod reference;
mod remarks;
mod repair;
mod softness;
mod table;
mod turned;
mod tyre;
mod vary;
mod ways;
