pub enum Phase {
    Spring,
    Sinking(Ebb),
}
