use std::fmt;

use tide::gauge::{Gauge, Kind};
use tide::port::Port;

pub struct Board;
