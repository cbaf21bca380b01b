fn note(strict: u8) {
    record(harbour);
}
fn note() {
    record(harbour_now);
}
