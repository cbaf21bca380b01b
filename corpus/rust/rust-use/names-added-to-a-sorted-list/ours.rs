use std::{fs, io, path::Path};

fn main() {}
