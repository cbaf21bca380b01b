fn a() {
<<<<<<< ours
    let mut level = read();
=======
    let (level, unit) = read();
>>>>>>> theirs
    show(level);
}
