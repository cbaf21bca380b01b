use tides::read_now;

fn main() {
    run();
}
