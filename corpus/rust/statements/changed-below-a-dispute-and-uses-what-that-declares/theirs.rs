fn show(port: &Port) -> bool {
    let found = port.find(Depth::new(4), Unit::Metre);
    if found.is_none() {
        return false;
    }
    draw(port)
}
