use surges::read_all;
<<<<<<< ours
=======
fn feed_all() {}

>>>>>>> theirs
use tides::read_now;

fn main() {
    run();
}
