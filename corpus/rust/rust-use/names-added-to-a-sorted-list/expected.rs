use std::{env, fs, io, path::Path};

fn main() {}
