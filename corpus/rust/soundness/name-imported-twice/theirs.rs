use std::env;

mod a;
mod b;
mod c;
mod d;

use chart::Height;
use std::io;

fn main() {}
