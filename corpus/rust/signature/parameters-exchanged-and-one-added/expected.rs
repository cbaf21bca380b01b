<<<<<<< ours
fn record(harbour: Harbour, level: u8) {
=======
fn record(level: u8, harbour: Harbour, unit: Unit) {
>>>>>>> theirs
}
