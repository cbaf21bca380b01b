use std::fmt;

use tide::{level::High, level::Low, level::Mean};

pub struct Board;
