//! The house: what of its order a compiler does not check.

mod dependencies;
mod setup;
mod tidy;
mod version;
