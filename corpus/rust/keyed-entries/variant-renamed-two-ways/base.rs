pub enum Phase {
    Flood(Level),
    Ebb(Level),
}
