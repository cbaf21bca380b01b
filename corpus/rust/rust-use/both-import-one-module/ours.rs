use std::env;
use std::path::Path;

fn main() {}
