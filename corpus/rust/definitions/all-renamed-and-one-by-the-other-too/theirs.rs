const PORT: u16 = 8080;
fn run(depth: u32) {}

fn level(value: u32) -> u32 {
    value + 49
}
