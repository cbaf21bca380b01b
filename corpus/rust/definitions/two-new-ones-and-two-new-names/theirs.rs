fn surge(value: u32) -> u32 {
    value + 24
}

fn draw_tides() {}
