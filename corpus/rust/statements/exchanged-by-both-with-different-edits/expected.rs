fn a() {
<<<<<<< ours
    two(harbour);
=======
    two(port);
>>>>>>> theirs
    one(harbour);
    three(port);
}
