pub enum Phase {
    Rising,
    Ebb,
}
