fn open_gate(berth: Port) {
    sound(HORN);
    lift(berth);
}
