fn a() {
    record(2, 1);
}
