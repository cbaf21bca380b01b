use std::{env, fs, io};

fn main() {}
