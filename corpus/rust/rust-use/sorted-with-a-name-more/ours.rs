use gauge::Gauge;
use level::unit::{Feet, Metres};
use level::{Low, High};
use result::Reading;

fn main() {}
