use tide::Gauge;
use std::io;
use tide::Level;

pub struct Board;
