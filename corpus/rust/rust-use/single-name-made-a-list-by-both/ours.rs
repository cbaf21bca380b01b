use std::io::{Read, Write};

pub mod board;
