const QUAY_PORT: u16 = 8080;
<<<<<<< ours
fn start() {}
=======
fn run(depth: u32) {}
>>>>>>> theirs

fn level(value: u32) -> u32 {
    value + 49
}
