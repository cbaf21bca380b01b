use std::io::{BufRead, Read, Write};

pub mod board;
