use tide::{Gauge, Level, Station};
use std::io;

pub struct Board;
