use std::fmt;

use tide::{gauge::{Gauge, Kind}, port::Port};

pub struct Board;
