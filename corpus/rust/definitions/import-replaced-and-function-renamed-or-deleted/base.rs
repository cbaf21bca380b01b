use tides::read;
fn feed() {}

fn main() {
    run();
}
