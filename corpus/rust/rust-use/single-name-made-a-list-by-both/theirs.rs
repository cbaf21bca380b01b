use std::io::{BufRead, Read};

pub mod board;
