use std::fs;

fn main() {}
