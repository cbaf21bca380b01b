fn a() {
    one(harbour);
    two(harbour);
    three(harbour);
}
