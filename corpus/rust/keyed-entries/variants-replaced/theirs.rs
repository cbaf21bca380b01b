pub enum Phase {
    Spring,
    Ebb,
}
