const PORT: u16 = 8080;
<<<<<<< ours
fn start(depth: u16) {}
=======
>>>>>>> theirs

fn level(value: u32) -> u32 {
    value + 10
}
