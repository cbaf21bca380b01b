fn a() {
    log();
    b()
}
