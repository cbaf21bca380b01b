fn tide(value: u32) -> u32 {
    value + 6
}

fn draw_levels() {}
