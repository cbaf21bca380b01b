fn note() {
    record(harbour);
}
