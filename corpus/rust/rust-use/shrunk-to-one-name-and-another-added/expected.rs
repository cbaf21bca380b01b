use std::fmt;

use tide::{Alarm, Gauge};

pub struct Board;
