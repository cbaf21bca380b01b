pub enum Phase {
    Incoming(Level),
    Ebb(Level),
}
