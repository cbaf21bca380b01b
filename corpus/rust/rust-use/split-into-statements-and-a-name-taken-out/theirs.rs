use std::fmt;

use tide::{Gauge, Port};

pub struct Board;
