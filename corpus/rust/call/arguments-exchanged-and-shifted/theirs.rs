fn a() {
    record(harbour, port);
}
