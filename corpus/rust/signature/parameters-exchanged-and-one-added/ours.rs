fn record(harbour: Harbour, level: u8) {
}
