use std::env;
use std::path::{Path, PathBuf};

fn main() {}
