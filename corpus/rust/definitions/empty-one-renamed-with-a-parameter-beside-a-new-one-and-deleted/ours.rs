const PORT: u16 = 8080;
fn start(depth: u16) {}

fn level(value: u32) -> u32 {
    value + 10
}
