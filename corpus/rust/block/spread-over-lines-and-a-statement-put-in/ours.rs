fn a() -> u8 {
    read(level)
}
