fn show(port: &Port) {
    let Some(level) = read(port) else {
        return;
    };
    board(level);
}
