use std::fmt;

use tide::Gauge;
pub use tide::Level;

pub struct Board;
