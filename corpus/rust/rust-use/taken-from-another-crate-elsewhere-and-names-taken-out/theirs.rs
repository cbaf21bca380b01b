use std::fmt;

use quay_levels::{self, High, Low, Mean};
use serde::Serialize;
use toml as format;

pub fn high(level: &High) {}
