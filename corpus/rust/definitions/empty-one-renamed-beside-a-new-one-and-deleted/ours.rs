const PORT: u16 = 8080;
fn depth(level: u32) -> u32 {
    level + 17
}

fn start() {}
