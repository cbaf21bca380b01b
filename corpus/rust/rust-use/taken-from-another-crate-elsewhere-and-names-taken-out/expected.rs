use std::fmt;

use quay_levels::{self, High};
use serde::Serialize;
use toml as format;

pub fn high(level: &High) {}
