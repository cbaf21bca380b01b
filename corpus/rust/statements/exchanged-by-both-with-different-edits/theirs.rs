fn a() {
    two(port);
    one(harbour);
    three(harbour);
}
