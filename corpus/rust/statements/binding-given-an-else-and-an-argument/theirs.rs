fn show(port: &Port) {
    let level = read(port, Unit::Metre);
    board(level);
}
