use std::fmt;
use tide::{high, low};

const LIMIT: u32 = 1;
