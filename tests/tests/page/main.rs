//! The page without a browser: what it holds, draws, writes into links, teaches and passes on.

mod aims;
mod alignment;
mod app;
mod asked;
mod compliance;
mod drawings;
mod fit;
mod fuzz;
mod goals;
mod hidden;
mod influence;
mod lengths;
mod lessons;
mod link_three;
mod links;
mod margins;
mod measuring;
mod papers;
mod parts;
mod pass_on;
mod pictorial;
mod space;
mod underlay;
mod variants;
mod work;
mod workshop;
