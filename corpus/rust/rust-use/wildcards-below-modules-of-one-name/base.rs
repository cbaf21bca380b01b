use std::fmt;

fn low() -> u8 {
    1
}

fn high() -> u8 {
    2
}
