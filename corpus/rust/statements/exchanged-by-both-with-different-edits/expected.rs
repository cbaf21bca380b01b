fn a() {
    two(port);
    one(harbour);
    three(port);
}
