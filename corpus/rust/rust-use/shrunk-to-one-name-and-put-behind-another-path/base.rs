use std::fmt;

use tide::{Gauge, Level};

pub struct Board;
