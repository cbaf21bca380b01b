fn tide(value: u32) -> u32 {
    value + 6
}

fn surge(value: u32) -> u32 {
    value + 24
}

<<<<<<< ours
fn draw_levels() {}
=======
fn draw_tides() {}
>>>>>>> theirs
