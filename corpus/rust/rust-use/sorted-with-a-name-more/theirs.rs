use crate::gauge::Gauge;
use crate::level::unit::{Feet, Metres};
use crate::level::{Low, Slack, High};
use crate::result::Reading;

fn main() {}
