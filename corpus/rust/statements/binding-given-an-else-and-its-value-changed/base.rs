fn show(port: &Port) {
    let level = read(port).unwrap();
    board(level);
}
