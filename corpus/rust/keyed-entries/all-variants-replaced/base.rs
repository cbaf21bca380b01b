pub enum Phase {
    Flood,
    Ebb,
}
