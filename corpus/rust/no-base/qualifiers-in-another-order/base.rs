pub fn level() -> u32 {
    3
}
