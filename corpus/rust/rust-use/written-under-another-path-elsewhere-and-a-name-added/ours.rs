use std::fmt;

use chart::{Grid, Scale};
use config::{Config, Version};
use gauge::Gauge;

use units::Metres;

pub fn draw(config: &Config, version: Version) {}
