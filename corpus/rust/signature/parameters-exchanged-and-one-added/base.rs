fn record(level: u8, harbour: Harbour) {
}
