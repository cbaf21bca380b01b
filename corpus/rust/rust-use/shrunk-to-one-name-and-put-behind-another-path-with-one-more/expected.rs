use crate::tide::{Gauge, Station};

pub struct Board;
