use std::env;
use tide::Height;

mod a;
mod b;
mod c;
mod d;

use std::io;

fn main() {}
