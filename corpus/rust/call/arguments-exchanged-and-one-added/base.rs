fn a() {
    record(level, harbour);
}
