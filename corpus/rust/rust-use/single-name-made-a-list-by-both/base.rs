use std::io::Read;

pub mod board;
