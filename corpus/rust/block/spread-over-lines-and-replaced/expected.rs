fn a() {
    c()
}
