use std::fmt;

use tide::Gauge;
use tide::Port;
pub use tide::Level;

pub struct Board;
