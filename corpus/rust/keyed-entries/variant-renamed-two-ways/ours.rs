pub enum Phase {
    Rising(Level),
    Ebb(Level),
}
