//! The kernel: against sources and witnesses nobody here made, laws over random axles, and bad input.

mod axle;
mod changes;
mod edges;
mod every_demo;
mod hostile;
mod laws;
mod loads;
mod published;
mod reference;
mod repair;
mod table;
mod vary;
mod ways;
