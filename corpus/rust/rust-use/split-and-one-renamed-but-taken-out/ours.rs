use std::fmt;

use tide::Gauge;
use tide::Level as Height;
use tide::Port;

pub struct Board;
