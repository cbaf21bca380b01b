fn a() {
    record(level.clone(), harbour);
}
