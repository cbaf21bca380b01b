<<<<<<< ours
use moor::{pick, Level};
=======
>>>>>>> theirs
use quay::board::load;
use quay::board::pick;
use quay::board::Tide;
use tide::draw;

fn chart() {}
