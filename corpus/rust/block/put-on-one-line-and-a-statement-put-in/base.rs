fn a() {
    b()
}
