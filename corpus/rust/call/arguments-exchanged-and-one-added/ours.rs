fn a() {
    record(harbour, level);
}
