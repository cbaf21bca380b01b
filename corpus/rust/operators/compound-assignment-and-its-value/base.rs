fn a() {
    level += 2;
}
