fn show(port: &Port) {
    let level = read(port).expect("a gauge");
    board(level);
}
