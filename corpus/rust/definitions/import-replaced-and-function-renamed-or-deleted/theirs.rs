use surges::read_all;
fn feed_all() {}

fn main() {
    run();
}
