use std::fmt;
use tide::{high, low, mean};
use tide::chart::draw;

const LIMIT: u32 = 1;
