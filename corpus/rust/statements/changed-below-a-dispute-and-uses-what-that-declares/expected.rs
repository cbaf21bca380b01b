fn show(port: &Port) -> bool {
<<<<<<< ours
    let level = port.read(3);
    if level.is_empty() {
=======
    let found = port.find(Depth::new(4), Unit::Metre);
    if found.is_none() {
>>>>>>> theirs
        return false;
    }
    draw(port)
}
