pub enum Phase {
<<<<<<< ours
    Rising(Level),
=======
    Incoming(Level),
>>>>>>> theirs
    Ebb(Level),
}
