fn note() {
    record(level, harbour);
}
