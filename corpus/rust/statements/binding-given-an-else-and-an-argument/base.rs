fn show(port: &Port) {
    let level = read(port);
    board(level);
}
