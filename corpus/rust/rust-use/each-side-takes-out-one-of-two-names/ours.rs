use std::fmt;
use tide::{low};

const LIMIT: u32 = 1;
