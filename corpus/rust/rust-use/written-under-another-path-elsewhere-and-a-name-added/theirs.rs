use std::fmt;

use units::Metres;

use crate::chart::{Grid, Scale};
use crate::config::Config;
use crate::gauge::Gauge;

pub fn draw(config: &Config) {}
