use harbour::berths;
use harbour::clock;
use std::path::Path;
use tide::forecast;

fn main() {}
