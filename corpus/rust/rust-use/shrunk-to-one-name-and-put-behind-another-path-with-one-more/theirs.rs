use crate::tide::{Alarm, Gauge, Level, Station};

pub struct Board;
