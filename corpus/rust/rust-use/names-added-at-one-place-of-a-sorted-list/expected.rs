use std::{fs, io, mem, time};

fn main() {}
