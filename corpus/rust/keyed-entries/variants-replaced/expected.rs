pub enum Phase {
<<<<<<< ours
    Rising,
=======
    Spring,
>>>>>>> theirs
    Ebb,
}
