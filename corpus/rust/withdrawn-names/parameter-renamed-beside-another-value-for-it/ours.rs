fn open_gate(port: Port) {
    sound(HORN);
    let port = nearest(port);
    lift(port);
}
