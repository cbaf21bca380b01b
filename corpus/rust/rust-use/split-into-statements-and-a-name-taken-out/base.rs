use std::fmt;

use tide::{Gauge, Level, Port};

pub struct Board;
