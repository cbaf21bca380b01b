fn a() {
    two(harbour);
    one(harbour);
    three(port);
}
