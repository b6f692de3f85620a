//! What leaves the page and comes back to it: pictures and tables, blocks of points, drafts.

pub mod as_built;
pub mod block;
pub mod drafts;
pub mod explained;
pub mod fitted;
pub mod pass_on;
