use std::io;
use tide::{Gauge, Level, Station};

pub struct Board;
