fn a() {
<<<<<<< ours
    record(harbour, level);
=======
    record(level, harbour, 3);
>>>>>>> theirs
}
