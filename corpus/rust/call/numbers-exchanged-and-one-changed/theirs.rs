fn a() {
    record(1, 3);
}
