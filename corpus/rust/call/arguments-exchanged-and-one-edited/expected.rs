fn a() {
    record(harbour, level.clone());
}
