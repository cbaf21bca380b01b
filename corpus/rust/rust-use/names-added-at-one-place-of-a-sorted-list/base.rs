use std::{fs, io};

fn main() {}
