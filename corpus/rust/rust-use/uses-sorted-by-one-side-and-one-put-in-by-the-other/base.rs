use tide::forecast;
use harbour::clock;
use std::path::Path;
use harbour::berths;

fn main() {}
