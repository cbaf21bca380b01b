use std::fmt;

use tide::Gauge;

pub struct Board;
