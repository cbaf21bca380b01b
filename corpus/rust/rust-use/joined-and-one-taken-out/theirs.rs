use std::fmt;

use tide::Gauge;
use tide::Port;

pub struct Board;
