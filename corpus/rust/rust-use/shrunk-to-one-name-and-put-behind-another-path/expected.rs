use std::fmt;

use crate::tide::Gauge;

pub struct Board;
