use std::env;

fn main() {}
