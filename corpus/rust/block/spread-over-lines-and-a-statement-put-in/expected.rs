fn a() -> u8 {
    check();
    read(level)
}
