use std::fmt;
use tide::{high};

const LIMIT: u32 = 1;
