use std::fmt;

use tide::Gauge;
use tide::Level;
use tide::Port;

pub struct Board;
