fn a() {
    let mut level = read();
    show(level);
}
