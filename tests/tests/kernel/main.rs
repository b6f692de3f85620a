//! The kernel: against sources and witnesses nobody here made, laws over random axles, and bad input.

mod aims;
mod axle;
mod changes;
mod compliance;
mod compliance_witness;
mod edges;
mod every_demo;
mod further;
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
mod space;
mod table;
mod tape;
mod turn;
mod turned;
mod tyre;
mod vary;
mod ways;
