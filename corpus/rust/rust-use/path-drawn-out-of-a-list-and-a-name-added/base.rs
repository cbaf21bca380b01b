use std::fmt;

use tide::{level::High, level::Low};

pub struct Board;
