fn a() -> u8 {
    if x { 1 } else { 3 }
}
