fn open_gate(berth: Port) {
    sound(HORN);
<<<<<<< ours
    let port = nearest(port);
=======
>>>>>>> theirs
    lift(berth);
}
