use std::fmt;

use tide::level::{High, Low};

pub struct Board;
