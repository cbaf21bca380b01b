fn show(port: &Port) -> bool {
    let level = port.read(3);
    if level.is_empty() {
        return false;
    }
    draw(port)
}
