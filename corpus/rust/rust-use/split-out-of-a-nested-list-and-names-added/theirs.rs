use std::fmt;

use tide::{gauge::{Gauge, Kind, Range}, port::{Berth, Port}};

pub struct Board;
