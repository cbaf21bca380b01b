fn run() {
    if !ok {
        return;
    }
<<<<<<< ours
    let level = read();
    show(level);
=======
    close();
>>>>>>> theirs
}
