//! What leaves the page and comes back to it: pictures and tables, blocks of points, drafts, marks.

pub mod as_built;
pub mod before;
pub mod block;
pub mod code;
pub mod drafts;
pub mod explained;
pub mod film;
pub mod fitted;
pub mod illustration;
pub mod marks;
pub mod picture;
pub mod post;
pub mod row;
pub mod tables;
pub mod webm;
