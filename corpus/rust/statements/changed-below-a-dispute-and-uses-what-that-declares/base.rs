fn show(port: &Port) -> bool {
    let level = port.read(2);
    if level.is_empty() {
        return false;
    }
    draw(port)
}
