fn show(port: &Port) {
<<<<<<< ours
    let Some(level) = read(port) else {
        return;
    };
=======
    let level = read(port).expect("a gauge");
>>>>>>> theirs
    board(level);
}
