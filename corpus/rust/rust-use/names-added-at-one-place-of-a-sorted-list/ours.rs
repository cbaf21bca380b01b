use std::{fs, io, time};

fn main() {}
