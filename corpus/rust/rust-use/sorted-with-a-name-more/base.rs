use gauge::Gauge;
use level::{Low, High};
use level::unit::{Feet, Metres};
use result::Reading;

fn main() {}
