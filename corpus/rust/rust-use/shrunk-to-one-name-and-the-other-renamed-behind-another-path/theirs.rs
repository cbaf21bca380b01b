use crate::tide::{Gauge, Height};

pub struct Board;
