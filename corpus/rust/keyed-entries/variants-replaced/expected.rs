pub enum Phase {
    Rising,
    Spring,
    Ebb,
}
