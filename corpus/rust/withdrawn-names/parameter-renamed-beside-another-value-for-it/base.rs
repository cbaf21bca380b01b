fn open_gate(port: Port) {
    sound(HORN);
    lift(port);
}
