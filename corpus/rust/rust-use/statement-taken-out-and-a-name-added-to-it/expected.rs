use std::fmt;
use tide::{low};
use tide::chart::draw;

const LIMIT: u32 = 1;
