use std::fmt;

use chart::{Grid, Scale};
use config::Config;
use gauge::Gauge;

use units::Metres;

pub fn draw(config: &Config) {}
