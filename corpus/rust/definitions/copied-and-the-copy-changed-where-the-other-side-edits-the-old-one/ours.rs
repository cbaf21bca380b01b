fn note(strict: u8) {
    record(harbour);
}
fn note() {
    record(level, harbour_now);
}
