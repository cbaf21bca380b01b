use std::fmt;

use crate::tide::{Gauge, Level};

pub struct Board;
