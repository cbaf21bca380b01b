fn a() {
<<<<<<< ours
    record(2, 1);
=======
    record(2, 3);
>>>>>>> theirs
}
