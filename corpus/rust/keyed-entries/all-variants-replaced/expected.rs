pub enum Phase {
<<<<<<< ours
    Rising,
    Falling(Ebb),
=======
    Spring,
    Sinking(Ebb),
>>>>>>> theirs
}
