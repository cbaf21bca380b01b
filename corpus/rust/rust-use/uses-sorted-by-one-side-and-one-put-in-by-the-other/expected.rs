use harbour::berths;
use harbour::buoys;
use harbour::clock;
use std::path::Path;
use tide::forecast;

fn main() {}
