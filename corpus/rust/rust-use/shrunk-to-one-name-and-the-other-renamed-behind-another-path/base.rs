use tide::{Gauge, Level};

pub struct Board;
