fn show(port: &Port) -> bool {
<<<<<<< ours
    let found = port.find(Depth::new(4), Unit::Metre);
    if found.is_none() {
=======
    let level = port.read(3);
    if level.is_empty() {
>>>>>>> theirs
        return false;
    }
    draw(port)
}
