use std::fmt;

use tide::gauge::{Gauge, Kind, Range};
use tide::port::Port;
use tide::port::Berth;

pub struct Board;
