use tide::forecast;
use harbour::clock;
use std::path::Path;
use harbour::berths;
use harbour::buoys;

fn main() {}
