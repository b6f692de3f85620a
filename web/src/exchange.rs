//! What leaves the page and comes back to it: pictures and tables, blocks of points, drafts, marks.

pub mod as_built;
pub mod block;
pub mod drafts;
pub mod explained;
pub mod marks;
pub mod pass_on;
