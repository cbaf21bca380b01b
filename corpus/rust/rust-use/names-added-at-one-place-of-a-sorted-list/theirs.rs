use std::{fs, io, mem};

fn main() {}
