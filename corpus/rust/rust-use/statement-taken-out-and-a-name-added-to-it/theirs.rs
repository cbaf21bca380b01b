use std::fmt;
use tide::chart::draw;

const LIMIT: u32 = 1;
