fn a() {
    record(1, 2);
}
