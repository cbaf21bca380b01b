fn high() {}

#[inline]
#[must_use]
fn lamp() -> u8 {
    1
}

fn low() {}
