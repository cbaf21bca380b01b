fn show(port: &Port) {
    let Some(level) = read(port, Unit::Metre) else {
        return;
    };
    board(level);
}
