use std::fmt;

use serde::Serialize;
use toml as format;

use tides::level::{self, High};

pub fn high(level: &High) {}
