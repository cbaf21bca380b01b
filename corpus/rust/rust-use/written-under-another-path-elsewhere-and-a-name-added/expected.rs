use std::fmt;

use units::Metres;

use crate::chart::{Grid, Scale};
use crate::config::{Config, Version};
use crate::gauge::Gauge;

pub fn draw(config: &Config, version: Version) {}
