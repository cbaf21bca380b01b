fn high() {}

fn lamp() -> u8 {
    1
}

fn low() {}
