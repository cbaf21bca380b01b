fn a() {
<<<<<<< ours
    record(harbour, level);
=======
    record(harbour, port);
>>>>>>> theirs
}
