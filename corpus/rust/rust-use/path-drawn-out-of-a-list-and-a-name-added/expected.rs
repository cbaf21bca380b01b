use std::fmt;

use tide::level::{High, Low, Mean};

pub struct Board;
