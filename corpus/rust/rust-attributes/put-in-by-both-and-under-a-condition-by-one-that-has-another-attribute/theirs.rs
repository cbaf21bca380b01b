fn high() {}

#[cfg(test)]
fn lamp() -> u8 {
    1
}

fn low() {}
