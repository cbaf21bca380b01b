fn a() {
    let level = read();
    show(level);
}
