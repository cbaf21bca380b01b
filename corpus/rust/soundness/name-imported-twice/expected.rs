use std::env;
<<<<<<< ours
use tide::Height;

mod a;
mod b;
mod c;
mod d;

=======

mod a;
mod b;
mod c;
mod d;

use chart::Height;
>>>>>>> theirs
use std::io;

fn main() {}
