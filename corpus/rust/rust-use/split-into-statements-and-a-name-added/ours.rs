use std::fmt;

use tide::Gauge;
use tide::Level;

pub struct Board;
