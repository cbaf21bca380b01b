fn a() {
    level += 3;
}
