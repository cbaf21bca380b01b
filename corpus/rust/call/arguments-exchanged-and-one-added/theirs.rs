fn a() {
    record(level, harbour, 3);
}
