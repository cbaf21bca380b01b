use std::fmt;

fn low() -> u8 {
    1
}

use quay::prelude::*;

fn high() -> u8 {
    2
}
