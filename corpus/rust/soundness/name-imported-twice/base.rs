use std::env;

mod a;
mod b;
mod c;
mod d;

use std::io;

fn main() {}
