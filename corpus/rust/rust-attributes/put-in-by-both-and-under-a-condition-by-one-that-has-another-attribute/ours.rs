fn high() {}

#[inline]
fn lamp() -> u8 {
    1
}

fn low() {}
