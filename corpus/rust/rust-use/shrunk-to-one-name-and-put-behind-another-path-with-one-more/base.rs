use tide::{Alarm, Gauge, Level};

pub struct Board;
