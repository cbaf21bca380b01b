pub enum Phase {
    Rising,
    Falling(Ebb),
}
