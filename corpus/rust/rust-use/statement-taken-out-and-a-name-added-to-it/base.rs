use std::fmt;
use tide::{high, mean};
use tide::chart::draw;

const LIMIT: u32 = 1;
